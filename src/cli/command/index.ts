import { cardCommand } from "./card.ts";
import { auditCommand, ratesCommand } from "./audit.ts";
import { caseCommand } from "./case.ts";
import { chartCommand } from "./chart.ts";
import type { Command } from "./command.ts";
import { cultureCommand } from "./culture.ts";
import { deviceCommand } from "./device.ts";
import { dueCommand } from "./due.ts";
import { filmCommand } from "./film.ts";
import { exportCommand } from "./export.ts";
import { flowCommand } from "./flow.ts";
import { importCommand } from "./import.ts";
import { kidneyCommand } from "./kidney.ts";
import { lumensCommand } from "./lumens.ts";
import { lumenFlowCommand } from "./lumen-flow.ts";
import { learningCommand, mapCommand } from "./map.ts";
import { mixingCommand } from "./mixing.ts";
import { paperCommand } from "./paper.ts";
import { packCommand } from "./pack.ts";
import { patencyCommand } from "./patency.ts";
import { planCommand } from "./plan.ts";
import { poolCommand } from "./pool.ts";
import { practiceCommand } from "./practice.ts";
import { schemaCommand } from "./schema.ts";
import { signalsCommand } from "./signals.ts";
import { tipCommand } from "./tip.ts";
import { coxCommand, survivalCommand } from "./survival.ts";
import { backupCommand, restoreCommand, verifyCommand } from "./store.ts";

export type { Command, Exit, FileInPieces } from "./command.ts";
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
  cardCommand,
  paperCommand,
  filmCommand,
  tipCommand,
  auditCommand,
  ratesCommand,
  survivalCommand,
  coxCommand,
  chartCommand,
  mapCommand,
  learningCommand,
  poolCommand,
  packCommand,
  exportCommand,
  caseCommand,
  importCommand,
  practiceCommand,
  schemaCommand,
  verifyCommand,
  signalsCommand,
  backupCommand,
  restoreCommand,
];
