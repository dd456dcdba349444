import { centimetre } from "../../core/quantity/index.ts";
import { bandAt, thirdsOf } from "../../core/arm/index.ts";
import { isKnown, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ratioOf, type LineFacts, type LineRow, type ReferralRow } from "../line/index.ts";
import { ratioIsPossible } from "../quality/index.ts";

/** Yes, no, or not known: what is not known is in no denominator and is told beside the figure. */
type Test = (line: LineFacts, limits: CountLimits) => boolean | undefined;

const PERCENT = 100;
/** The whole arm as one: positions are shares, so the thirds of a length of one are asked. */
const WHOLE_ARM = thirdsOf(centimetre(1));

const when = <Value>(value: Maybe<Value>, holds: (known: Value) => boolean): boolean | undefined =>
  isKnown(value) ? holds(value) : undefined;
const known = (value: unknown): boolean => isKnown(value);

const TESTS = {
  all: () => true,
  "first attempt": ({ row }) => when(row.attempts, (attempts) => attempts === 1),
  "one lumen": ({ row }) => when(row.lumens, (lumens) => lumens === 1),
  "ratio within the upper edge": ({ row }, limits) =>
    ratioIsPossible(row, limits)
      ? when(ratioOf(row), (ratio) => ratio * PERCENT <= (limits.ratioEdgesPercent.at(-1) as number))
      : undefined,
  "middle third": ({ row }) =>
    when(row.positionShare, (share) => !["lower third", "upper third"].includes(bandAt(WHOLE_ARM, centimetre(share)))),
  "tip well placed": ({ row }, limits) => when(row.tipPlace, (place) => limits.goodTipPlaces.includes(place)),
  "short stay": ({ dwellDays, row }, limits) =>
    row.end.kind === "removed" && dwellDays !== undefined ? dwellDays <= limits.shortStayDays : undefined,
  "filtration low": ({ row }, limits) => when(row.eGfr, (eGfr) => eGfr < limits.lowFiltration),
  "vein diameter known": ({ row }) => known(row.veinDiameterMm),
  "lot known": ({ row }) => known(row.lot),
  "tip known": ({ row }) => known(row.tipPlace),
  "attempts known": ({ row }) => known(row.attempts),
  "reason known": ({ row }) => row.end.kind === "removed" && known(row.end.reason),
  "end not known": ({ row }) => row.end.kind === "unknown",
  "handed on": ({ row }) => row.end.kind === "handed on",
  "care overdue": ({ row }) => when(row.overdueCare, (items) => items.length > 0),
  "no owner": ({ row }) => when(row.owned, (owned) => !owned),
  "a stop was passed": ({ row }) => when(row.overrides, (codes) => codes.length > 0),
} as const satisfies Readonly<Record<string, Test>>;

export type LineTest = keyof typeof TESTS;
export const LINE_TESTS = Object.keys(TESTS) as readonly LineTest[];
export const REFERRAL_TESTS = ["all", "declined", "tried, not placed"] as const;
export type ReferralTest = (typeof REFERRAL_TESTS)[number];

export const passes = (test: LineTest, line: LineFacts, limits: CountLimits): boolean | undefined =>
  TESTS[test](line, limits);

export const referralPasses = (test: ReferralTest, { outcome }: ReferralRow): boolean | undefined =>
  test === "all" ? true : outcome === "open" || outcome === "waiting" ? undefined : outcome === test;

/** The third of the arm a share along it lies in, as the plan names it. */
export const thirdOf = (row: LineRow): Maybe<string> =>
  isKnown(row.positionShare) ? bandAt(WHOLE_ARM, centimetre(row.positionShare)) : row.positionShare;
