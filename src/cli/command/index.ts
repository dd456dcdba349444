import type { Command } from "./command.ts";
import { planCommand } from "./plan.ts";
import { practiceCommand } from "./practice.ts";
import { schemaCommand } from "./schema.ts";

export type { Command, Exit } from "./command.ts";
export const commands: readonly Command[] = [planCommand, practiceCommand, schemaCommand];
