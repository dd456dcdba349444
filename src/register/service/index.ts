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
export { decideMemory, type MemoryRefusal } from "./decide-memory.ts";
