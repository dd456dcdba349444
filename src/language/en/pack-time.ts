import type { MonthPack, NotedSignal, RememberedSignal, ServiceChart, TimeMemory } from "../../audit/index.ts";
import { civilDateOf } from "../../core/calendar/index.ts";
import { SERVICE_ROLE, type KeptBase, type KeptSignal } from "../../register/index.ts";
import { toShowSentence } from "./count-more.ts";
import { sayMeasure } from "./count.ts";
import { sayDay } from "./moment.ts";
import { amount, numberOf } from "./number.ts";
import { timePlateWords } from "./time-plate.ts";

const two = (value: number | undefined): string => (value === undefined ? "none" : amount(value, "", 2));
const days = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });

interface PlateTable {
  readonly rows: readonly (readonly string[])[];
}

/** Lines of one signal that are named; the rest is told by their number. */
const MOST_LINES = 6;

const baseWords = (base: KeptBase | undefined): string =>
  base
    ? `set ${sayDay(civilDateOf(base.at))}${base.targetPerThousand === undefined ? "" : ", agreed rate"}`
    : "moves on each month";

const stood = ({ on, events, lineDays }: KeptSignal): string =>
  `On ${sayDay(on)} it stood at ${events} in ${days(lineDays)} line-days.`;

/** What late entries made of a kept signal: both numbers, never the new one alone. */
function restatedLines({ kept, restated }: RememberedSignal): readonly string[] {
  if (!kept || !restated) return [];
  const now = `Now the same days hold ${restated.events} in ${days(restated.lineDays)}.`;
  if (restated.on === undefined) return [stood(kept), now, "It no longer stands: no signal falls there now."];
  return [stood(kept), now, ...(restated.on === kept.on ? [] : [`It now falls on ${sayDay(restated.on)}.`])];
}

/** When a signal was first noted, and by whom: it stays, whatever later entries make of its days. */
const firstNoted = ({ kept }: RememberedSignal): readonly string[] =>
  kept
    ? [
        `First noted on ${sayDay(kept.firstSeenOn)} by ${kept.author.role === SERVICE_ROLE ? "the service itself" : kept.author.initials}.`,
      ]
    : [];

function lookLines({ kept }: RememberedSignal): readonly string[] {
  if (!kept) return ["Not kept in the record yet."];
  if (kept.looks.length === 0) return ["Nobody has looked at it yet."];
  return kept.looks.flatMap(({ by, found, words, action }) => [
    `Looked at by ${by}: ${found}.`,
    ...(words === "" ? [] : [words]),
    ...(action === "" ? [] : [`Action: ${action.replace(/\.?$/, ".")}`]),
  ]);
}

/** Which lines a signal is made of, and what they share beside how usual it was. */
function caseLines({ present }: RememberedSignal, nameOf: (key: string) => string): readonly string[] {
  if (!present) return [];
  const { lines, shared } = present;
  const named = lines.slice(0, MOST_LINES).map(({ line }) => nameOf(line));
  const more = lines.length - named.length;
  const first = shared.named[0];
  return [
    `Lines: ${named.join("; ")}${more > 0 ? `; ${more} more` : ""}.`,
    first
      ? `Shared: ${first.exposure} ${first.value}, ${first.inCluster} of ${first.clusterKnown}; usual ${first.inAll} of ${first.allKnown}.`
      : "No shared exposure stands out.",
  ];
}

const signalHead = ({ measure, kept, present }: RememberedSignal): string => {
  const one = present ?? kept;
  return one
    ? `${sayMeasure(measure)}, ${sayDay(one.on)}: ${one.events} since ${sayDay(one.since)}, ${amount(one.expected, "", 1)} expected${present?.provisional ? ", provisional" : ""}.`
    : "";
};

const earlierBase = (signal: RememberedSignal): readonly string[] =>
  signal.earlierBase ? ["Kept against an earlier base; not counted again."] : [];

/** A signal with all that is known of it, the head first. */
export const rememberedLines = (
  signal: RememberedSignal,
  nameOf: (key: string) => string = (key) => key,
): readonly [string, ...string[]] => [
  signalHead(signal),
  ...firstNoted(signal),
  ...restatedLines(signal),
  ...earlierBase(signal),
  ...caseLines(signal, nameOf),
  ...lookLines(signal),
];

/** The same as the cells of a row. */
export function rememberedRow(signal: RememberedSignal, nameOf: (key: string) => string): readonly string[] {
  const [lines = "", shared = ""] = caseLines(signal, nameOf);
  return [
    [signalHead(signal), ...firstNoted(signal), ...restatedLines(signal), ...earlierBase(signal)].join(" "),
    lines.replace("Lines: ", ""),
    shared.replace("Shared: ", ""),
    lookLines(signal).join(" "),
  ];
}

export const changeLines = ({ changes }: Pick<TimeMemory, "changes">): readonly string[] =>
  changes.map(({ number, on, kind, words }) => `${number}. ${sayDay(on)}, ${kind}: ${words.replace(/\.?$/, ".")}`);

/** The words of page 2 that are not on a plate. */
export const timeWords = {
  /** Under a plate: the base with its limits and how it stands, how soon a rise would show, and how long it was quiet. */
  told: (chart: ServiceChart, base: KeptBase | undefined): string => {
    const { base: rate } = chart.plan;
    return [
      `Base ${two(rate.perThousand)} per 1,000 (${two(rate.lower)} to ${two(rate.upper)}), ${rate.events} events; ${base ? "" : "it "}${baseWords(base)}.`,
      // without an alarm nothing would show a rise
      ...(chart.plan.alarm && !chart.noAlarm ? [toShowSentence(chart)] : []),
      `${days(chart.sinceLast)} line-days since the last.`,
    ].join(" ");
  },
  changes: "Marks: what was changed, and when",
  moreChanges: (count: number): string => `and ${numberOf(count, "earlier mark")}: in words on the pack's page.`,
  signals: "Signals: look at the record first, then who was treated, then practice",
  signalHead: ["Signal", "Its lines", "Shared", "Looked at"] as const,
  under: timePlateWords.under("line-days"),
  /** The plate's numbers in words, for whoever hears the page: what its table holds, span by span. */
  alt: ({ sentence, table }: { readonly sentence: string; readonly table: PlateTable }): string =>
    `${sentence} ${table.rows
      .map(
        ([name = "", events = "", over = "", , , , , sum = ""]) =>
          `${name}: ${events} in ${over}${sum === "none" ? "" : `, sum ${sum}`}`,
      )
      .join("; ")}.`,
  earlier: (signals: readonly RememberedSignal[]): string =>
    `And ${numberOf(signals.length, "earlier signal")}: ${signals.map(({ measure, kept, present }) => `${sayMeasure(measure)} ${sayDay((kept ?? present)?.on as never)}`).join("; ")}.`,
  noMemory: "No record came with this table: its base moves on each month.",
} as const;

/** The memory of page 2 as lines, for the command. */
export function memoryLines({ memory, monitor }: Pick<MonthPack, "memory" | "monitor">): readonly string[] {
  if (!memory) return [];
  return [
    "",
    ...(monitor?.charts ?? []).map(
      ({ measure }) => `${sayMeasure(measure)}: base ${baseWords(memory.bases[measure])}.`,
    ),
    ...(memory.changes.length > 0 ? ["Changes of practice:", ...changeLines(memory).map((line) => `  ${line}`)] : []),
    ...memory.signals.flatMap((signal) => {
      const [head, ...rest] = rememberedLines(signal);
      return [head, ...rest.map((line) => `  ${line}`)];
    }),
  ];
}

/** What a look for new signals noted, as lines. */
export const notedLines = (noted: readonly NotedSignal[]): readonly string[] =>
  noted.length === 0
    ? ["No new signal against a base in force."]
    : noted.map(
        ({ measure, on, events }) =>
          `${sayMeasure(measure)}, ${sayDay(on)}: ${numberOf(events, "event")}. Noted in the record.`,
      );
