import type * as z from "zod/mini";
import { frenchToMillimetre, french, millimetre, type Millimetre } from "../core/quantity/index.ts";
import type { Fault } from "./fault.ts";
import { lumenFile, mixingFile, veinFile } from "./flow-schema.ts";
import { parsedJson, readJson } from "./read-json.ts";

type Reading<Data> =
  | { readonly kind: "read"; readonly data: Data }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] };

function read<Schema extends z.ZodMiniType>(
  text: string,
  schema: Schema,
  across: (data: z.infer<Schema>) => readonly Fault[],
): Reading<z.infer<Schema>> {
  const parsed = parsedJson(text);
  return parsed.kind === "faults" ? parsed : readJson(parsed.json, schema, across);
}

/** Reads VEIN.json; every fault at once. */
export const readVeinText = (text: string): Reading<z.infer<typeof veinFile>> =>
  read(text, veinFile, (data) => [
    ...sizeFaults(data),
    ...(data.others ?? []).flatMap((other, index) =>
      sizeFaults(other).map((fault) => ({ ...fault, path: `others.${index}.${fault.path}` })),
    ),
    ...filledFaults(data),
  ]);

/** Reads LUMEN.json; every fault at once. */
export const readLumenText = (text: string): Reading<z.infer<typeof lumenFile>> =>
  read(text, lumenFile, (data) => [
    ...sizeFaults(data),
    ...(data.headCm === undefined && data.pumpLimitMmHg === undefined
      ? [{ path: "headCm", code: "missing-field", found: "nothing", rule: "headCm or pumpLimitMmHg" } as const]
      : []),
  ]);

/** Reads MIXING.json; every fault at once. */
export const readMixingText = (text: string): Reading<z.infer<typeof mixingFile>> =>
  read(text, mixingFile, ({ titratableAcidity, bufferValue }) =>
    titratableAcidity !== undefined && bufferValue === undefined
      ? [{ path: "bufferValue", code: "missing-field", found: "nothing", rule: "bufferValue beside titratableAcidity" }]
      : [],
  );

interface Sized {
  readonly french?: number | undefined;
  readonly outsideDiameterMm?: number | undefined;
}

function sizeFaults({ french: fr, outsideDiameterMm }: Sized): Fault[] {
  if (fr !== undefined && outsideDiameterMm !== undefined)
    return [{ path: "french", code: "both-units", found: "French and millimetres", rule: "one of them" }];
  return fr === undefined && outsideDiameterMm === undefined
    ? [{ path: "french", code: "missing-field", found: "nothing", rule: "french or outsideDiameterMm" }]
    : [];
}

/** The outside diameter of a file that gives it either way. */
export const sizeOf = ({ french: fr, outsideDiameterMm }: Sized): Millimetre =>
  outsideDiameterMm === undefined ? frenchToMillimetre(french(fr ?? 0)) : millimetre(outsideDiameterMm);

/** Beyond this share of the vein the model is no model of anything. */
const WIDEST = 0.97;

function filledFaults(data: Sized & { readonly diameterMm: number }): Fault[] {
  const outside = sizeOf(data);
  return outside > WIDEST * data.diameterMm
    ? [
        {
          path: "diameterMm",
          code: "out-of-range",
          found: String(data.diameterMm),
          rule: `more than ${(outside / WIDEST).toFixed(2)} for a catheter of ${outside.toFixed(2)} mm`,
        },
      ]
    : [];
}
