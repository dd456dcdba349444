import { lineTableSchema } from "../../audit/index.ts";
import {
  careJsonSchemas,
  chartJsonSchema,
  flowJsonSchemas,
  planCaseJsonSchema,
  poolJsonSchema,
  referralJsonSchema,
  tipJsonSchemas,
} from "../../contract/index.ts";
import type { Command } from "./command.ts";

const schemas: Readonly<Record<string, () => unknown>> = {
  plan: planCaseJsonSchema,
  device: referralJsonSchema,
  lumens: chartJsonSchema,
  ...flowJsonSchemas,
  ...careJsonSchemas,
  ...tipJsonSchemas,
  audit: lineTableSchema,
  pool: poolJsonSchema,
};

/** Prints the JSON Schema of the file a command reads. */
export const schemaCommand: Command = {
  name: "schema",
  summary: "Print the JSON Schema of the file a command reads.",
  usage: "veinwright schema COMMAND",
  readsFile: false,
  run: ({ argument }) => {
    const schema = Object.hasOwn(schemas, argument) ? schemas[argument] : undefined;
    if (!schema)
      return { exit: 64, output: `No schema for "${argument}". There is one for: ${Object.keys(schemas).join(", ")}.` };
    return { exit: 0, output: JSON.stringify(schema(), null, 2) };
  },
};
