import type { Command } from "./command.ts";
import { cultureCommand } from "./culture.ts";
import { deviceCommand } from "./device.ts";
import { dueCommand } from "./due.ts";
import { flowCommand } from "./flow.ts";
import { kidneyCommand } from "./kidney.ts";
import { lumensCommand } from "./lumens.ts";
import { lumenFlowCommand } from "./lumen-flow.ts";
import { mixingCommand } from "./mixing.ts";
import { patencyCommand } from "./patency.ts";
import { planCommand } from "./plan.ts";
import { practiceCommand } from "./practice.ts";
import { schemaCommand } from "./schema.ts";
import { backupCommand, restoreCommand, verifyCommand } from "./store.ts";

export type { Command, Exit } from "./command.ts";
export const commands: readonly Command[] = [
  planCommand,
  deviceCommand,
  lumensCommand,
  kidneyCommand,
  flowCommand,
  lumenFlowCommand,
  mixingCommand,
  dueCommand,
  patencyCommand,
  cultureCommand,
  practiceCommand,
  schemaCommand,
  verifyCommand,
  backupCommand,
  restoreCommand,
];
