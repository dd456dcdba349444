export {
  actionBefore,
  baseInForce,
  monthOf,
  serviceMemory,
  serviceSubject,
  signalKey,
  type KeptAction,
  type KeptBase,
  type KeptChange,
  type KeptSignal,
  type ServiceMemory,
} from "./service-memory.ts";
export { decideWardMonth, wardMonths, type KeptWardMonth, type WardMonthRefusal } from "./ward-month.ts";
export { decideMemory, type MemoryRefusal } from "./decide-memory.ts";
