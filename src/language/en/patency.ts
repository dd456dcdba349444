import { clockOf, instantMs, type Instant } from "../../core/calendar/index.ts";
import { MECHANICAL_STEPS } from "../../core/care/index.ts";

const TRIED: ReadonlySet<string> = new Set(MECHANICAL_STEPS);

/** What the steps of a blocked line ask on the page. */
export const patencyAsks: Readonly<Record<string, string>> = {
  clamp: "And now?",
  kink: "And now?",
  dressing: "And now?",
  connector: "And now?",
  arm: "And now?",
  cough: "And now?",
  outsideLength: "The outside length is",
  flushes: "It flushes",
  blood: "Blood comes back",
  cause: "Before it blocked:",
  pain: "Pain, or swelling",
  earSound: "A sound in the ear",
  film: "The film shows the",
  weightKg: "Weight, kg",
  labelLumenMl: "Lumen volume by the label, mL",
};

export const patencyWords = {
  title: "The next step",
  back: "Take the last answer back",
  take: "Go on",
  basis: "One lumen at a time. Order: common practice, no source. Local policy comes first.",
  clock: (first: number, second: number): string =>
    `After a dose: look for blood at ${first} min, then at ${second} min. Never force.`,
} as const;

/** The answers as one entry: what was tried, and what was found; "flows again" stands alone. */
export function patencyEntry(
  given: readonly (readonly [ask: string, said: string])[],
): Readonly<Record<string, string>> {
  const tried = given.filter(([ask]) => TRIED.has(ask)).map(([ask]) => ask);
  const found = given.filter(([ask]) => !TRIED.has(ask)).map(([ask, said]) => `${entryWords[ask] ?? ask} ${said}`);
  const helped = given.some(([, said]) => said === "flows again");
  return {
    step: [...tried, ...(found.length > 0 ? ["looked and asked"] : [])].join(", "),
    answer: helped ? "flows again" : [...(tried.length > 0 ? ["no change"] : []), ...found].join("; "),
  };
}

const entryWords: Readonly<Record<string, string>> = {
  outsideLength: "outside length",
  flushes: "flushes",
  blood: "blood",
  cause: "before it:",
  earSound: "ear sound",
  weightKg: "kg",
  labelLumenMl: "lumen mL",
};

/** One look for blood by the time of day: "Look for blood at 14:35", or how long it has been due. */
export const sayLook = (at: Instant, now: Instant): string =>
  instantMs(now) < instantMs(at) ? `Look for blood at ${clockOf(at)}` : `Look for blood now: due since ${clockOf(at)}`;

/** The dose the looks follow, as a word behind them. */
export const sayLyticDose = (at: Instant): string => `lytic at ${clockOf(at)}`;
