import { parseInstant } from "../../core/calendar/index.ts";
import { amount, cultureWords, minutes, paperNameMissing, sayMoment } from "../../language/index.ts";
import { standing, valueIn, type EntryOf } from "../../register/index.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import type { Sheet } from "./sheet.ts";

type Bottle = NonNullable<ReturnType<typeof bottlesOf>>[number];

/** Times and volumes of a pair of cultures, and the two labels; what is on record already is printed in. */
export function cultureCard(input: PaperInput): Sheet {
  const { table } = input.policy;
  const bottles = bottlesOf(input) ?? [];
  const antibiotics = lastCultures(input)?.antibioticsBefore;
  const written = bottles.length > 0 ? bottles : [undefined, undefined];
  const rows = written.map((bottle, at) => rowOf(bottle, bottle ? bottle.site === "line" : at === 0));
  return framed("culture card", input, [
    {
      kind: "list",
      numbered: true,
      items: cultureWords.order(
        minutes(table["complication.culture-draw-gap"].value),
        minutes(table["complication.culture-load-gap"].value),
        amount(table["complication.culture-volume-ratio"].value, "", 2),
      ),
    },
    { kind: "table", head: cultureWords.head, shares: [1.4, 1.5, 0.8, 1.5, 1.6], rows },
    {
      kind: "boxes",
      label: cultureWords.antibiotics,
      options: cultureWords.yesNo,
      ticked: valueIn(antibiotics) === undefined ? "" : valueIn(antibiotics) ? "yes" : "no",
    },
    { kind: "sign", items: cultureWords.sign },
    { kind: "soft", text: cultureWords.judged },
    { kind: "heading", text: cultureWords.labels },
    {
      kind: "columns",
      shares: [1, 1],
      columns: [cultureWords.line(cultureWords.lumenBlank), cultureWords.vein].map((site) => [
        { kind: "typed", lines: [site, cultureWords.labelLine], caption: labelCaption(input) },
      ]),
    },
  ]);
}

function labelCaption({ patient }: PaperInput): string {
  return cultureWords.label(patient?.name || paperNameMissing, patient?.number || "missing");
}

const lastCultures = ({ line }: PaperInput): EntryOf<"CulturesTaken"> | undefined =>
  [...standing(line.happenings)].reverse().find(({ event }) => event.type === "CulturesTaken")?.entry;

const bottlesOf = (input: PaperInput) => valueIn(lastCultures(input)?.bottles);

function rowOf(bottle: Bottle | undefined, fromLine: boolean): readonly string[] {
  const at = (text: string | undefined): string => {
    const moment = text === undefined ? undefined : parseInstant(text);
    return moment ? sayMoment(moment) : cultureWords.fill;
  };
  const lumen = bottle?.lumen === undefined ? cultureWords.lumenBlank : String(bottle.lumen);
  return [
    fromLine ? cultureWords.line(lumen) : cultureWords.vein,
    at(bottle?.drawnAt),
    bottle?.volumeMl === undefined ? cultureWords.fillMl : amount(bottle.volumeMl, "mL"),
    at(bottle?.loadedAt),
    at(bottle?.flaggedAt),
  ];
}
