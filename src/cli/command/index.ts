import type { Command } from "./command.ts";
import { deviceCommand } from "./device.ts";
import { flowCommand } from "./flow.ts";
import { kidneyCommand } from "./kidney.ts";
import { lumensCommand } from "./lumens.ts";
import { lumenFlowCommand } from "./lumen-flow.ts";
import { mixingCommand } from "./mixing.ts";
import { planCommand } from "./plan.ts";
import { practiceCommand } from "./practice.ts";
import { schemaCommand } from "./schema.ts";

export type { Command, Exit } from "./command.ts";
export const commands: readonly Command[] = [
  planCommand,
  deviceCommand,
  lumensCommand,
  kidneyCommand,
  flowCommand,
  lumenFlowCommand,
  mixingCommand,
  practiceCommand,
  schemaCommand,
];
