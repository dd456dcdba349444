import { parseCivilDate } from "../../core/calendar/index.ts";
import {
  handoverWords,
  paperNameMissing,
  recallWords,
  sayDueWhat,
  sayIdentifiers,
  sayLineFinding,
  sayPage,
  sayRelease,
} from "../../language/index.ts";
import { recall, valueIn, type LineAnswer, type LineView, type PatientView } from "../../register/index.ts";
import { lengthNow } from "./line-value.ts";
import { framedList, isPractice, settledArm, type PaperInput } from "./paper-input.ts";
import type { Block, Sheet } from "./sheet.ts";

/** One line of a list with its person and what its events mean now. */
export interface ListedLine {
  readonly line: LineView;
  readonly patient: PatientView | undefined;
  readonly answer: LineAnswer;
}

type Printing = Pick<PaperInput, "policy" | "printedAt">;
const ROWS_A_PAGE = 11;
const SHARES = { handover: [1.7, 0.9, 2, 0.8, 1.3, 1.4, 0.9], "recall list": [2, 0.9, 1.4, 1.8, 1.2] } as const;

/** The lines an owner answers for, to be taken over row by row; "" lists those nobody answers for. As many pages as needed. */
export function handoverSheets(owner: string, lines: readonly ListedLine[], printing: Printing): readonly Sheet[] {
  const mine = lines.filter(
    ({ line }) =>
      line.placed && (line.end === undefined || line.end.kind === "unknown") && (line.owner?.owner ?? "") === owner,
  );
  const rows = [...mine]
    .sort(byFirstDue)
    .map(({ line, patient, answer }) => [
      who(patient),
      settledArm(line, answer),
      mayBeUsed(line, answer),
      lengthNow(line, "outsideCm").value,
      answer.due[0] ? handoverWords.due(sayDueWhat(answer.due[0].what), answer.due[0].on) : handoverWords.nothing,
      [line.owner?.place, line.owner?.phone].filter(Boolean).join(", ") || "not known",
      " ",
    ]);
  return paged(
    "handover",
    handoverWords.owner(owner || handoverWords.noOwner),
    handoverWords.count(rows.length),
    handoverWords.head,
    rows,
    mine,
    printing,
    [{ kind: "sign", items: handoverWords.sign }],
  );
}

/** As the page says it; what the tip has against a release stands beside it. */
function mayBeUsed(line: LineView, { release }: LineAnswer): string {
  const stop = line.tip && !line.end ? release.stop : undefined;
  return stop ? `${sayRelease(release)} ${sayLineFinding(stop)}` : sayRelease(release);
}

/** Everyone a lot reached: those to call today first, then unknown ends, then those whose lot nobody wrote. */
export function recallSheets(lotNumber: string, lines: readonly ListedLine[], printing: Printing): readonly Sheet[] {
  const found = recall(
    lotNumber,
    lines.map(({ line }) => line),
  );
  const groups: readonly (readonly [string, readonly LineView[]])[] = [
    [recallWords.standing.in, found.stillIn],
    [recallWords.standing.unknown, found.unknownEnd],
    [recallWords.standing["handed on"], found.handedOn],
    [recallWords.standing["lot missing"], found.lotMissing],
    [recallWords.standing.removed, found.out],
  ];
  const of = new Map(lines.map((one) => [one.line.subject, one]));
  const listed = groups.flatMap(([standing, some]) =>
    some.map((line) => ({ standing, one: of.get(line.subject) as ListedLine })),
  );
  const rows = listed.map(({ standing, one: { line, patient, answer } }) => [
    who(patient),
    settledArm(line, answer),
    standing,
    [line.owner?.owner, line.owner?.phone, valueIn(patient?.details.phone)].filter(Boolean).join(", ") ||
      "no phone written",
    " ",
  ]);
  return paged(
    "recall list",
    `Lot ${lotNumber}`,
    `${rows.length} people`,
    recallWords.listHead,
    rows,
    listed.map(({ one }) => one),
    printing,
    [{ kind: "sign", items: recallWords.sign.slice(0, 2) }],
  );
}

function paged(
  paper: "handover" | "recall list",
  name: string,
  identifiers: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
  lines: readonly ListedLine[],
  printing: Printing,
  end: readonly Block[],
): readonly Sheet[] {
  const pages = Math.max(1, Math.ceil(rows.length / ROWS_A_PAGE));
  const practice = lines.some(({ patient }) => isPractice(patient));
  return Array.from({ length: pages }, (_, at) =>
    framedList(paper, { name, identifiers, practice, page: sayPage(at + 1, pages) }, printing, [
      { kind: "table", head, shares: SHARES[paper], rows: rows.slice(at * ROWS_A_PAGE, (at + 1) * ROWS_A_PAGE) },
      ...(at === pages - 1 ? end : []),
    ]),
  );
}

const who = (patient: PatientView | undefined): string =>
  `${patient?.name || paperNameMissing}, ${sayIdentifiers(patient?.number ?? "", parseCivilDate(patient?.bornOn ?? ""))}`;
const byFirstDue = (a: ListedLine, b: ListedLine): number => {
  const [first, second] = [a.answer.due[0]?.on ?? "9999", b.answer.due[0]?.on ?? "9999"];
  return first < second ? -1 : first > second ? 1 : 0;
};
