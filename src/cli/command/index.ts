import type { Command } from "./command.ts";
import { deviceCommand } from "./device.ts";
import { kidneyCommand } from "./kidney.ts";
import { planCommand } from "./plan.ts";
import { practiceCommand } from "./practice.ts";
import { schemaCommand } from "./schema.ts";

export type { Command, Exit } from "./command.ts";
export const commands: readonly Command[] = [planCommand, deviceCommand, kidneyCommand, practiceCommand, schemaCommand];
