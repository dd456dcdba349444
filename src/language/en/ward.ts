import type { WardFunnel, WardPoint } from "../../audit/index.ts";
import { sayMeasure } from "./count.ts";
import { amount, inHundred } from "./number.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const two = (value: number | undefined): string => (value === undefined ? "none" : amount(value, "", 2));
const hundred = (tail: number): string => `${Number((100 * (1 - 2 * tail)).toFixed(1))} in 100`;

/** What a plate of wards is told of. */
type Told = Pick<WardFunnel, "tails" | "wards" | "spread" | "byChance" | "clock" | "events" | "days" | "withoutWard">;

const standsWords = ({ judged, stands, far }: WardPoint): string =>
  !judged ? "too few to judge" : stands === "within" ? "within" : far ? `far ${stands}` : stands;

const outside = ({ wards }: Told): readonly WardPoint[] => wards.filter(({ stands }) => stands !== "within");

/** Which ward stands outside, and what chance alone would do. */
export function wardSentences(told: Told): readonly string[] {
  const { wards, spread, byChance, withoutWard, tails } = told;
  const out = outside(told);
  const judged = wards.filter((ward) => ward.judged).length;
  if (judged === 0) return [`All ${wards.length} wards expect too few events to be judged.`];
  return [
    ...(out.length === 0 ? [`No ward stands outside chance, of ${judged} judged.`] : []),
    ...out.map((ward) => {
      const limits = `${ward.far ? "far " : ""}${ward.stands} its limits`;
      return `${ward.ward} stands ${limits}: ${whole(ward.events)}, ${amount(ward.expected, "", 1)} expected.`;
    }),
    `Chance alone puts about ${byChance < 0.05 ? "none" : amount(byChance, "", 1)} of ${judged} outside.`,
    ...(out.length > 0 ? ["Look at its record and its patients before its work."] : []),
    ...(spread.widen
      ? [`Wards differ more than chance; the limits of ${hundred(tails.inner)} are widened for it.`]
      : []),
    ...(withoutWard.events > 0
      ? [`No ward is written for ${whole(withoutWard.events)} events; they are left out.`]
      : []),
  ];
}

/** That no ward stands outside is news only where a doubling would have shown. */
export function doublingSentence({ wards }: Pick<Told, "wards">): string {
  const chances = wards.map(({ doublingSeen }) => doublingSeen);
  const [least, most] = [Math.min(...chances), Math.max(...chances)].map((chance) => inHundred(100 * chance));
  return least === most
    ? `Were one ward's rate doubled, it would show: ${most}.`
    : `Were one ward's rate doubled, it would show: ${least} to ${most}.`;
}

export const wardPlateWords = {
  unit: "per 1,000 days",
  tick: (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 2 }),
  across: "days of the ward in the period",
  all: (perThousand: number): string => `all ${two(perThousand)}`,
  under: ({ tails, spread }: Pick<Told, "tails" | "spread">): string =>
    `line: ${hundred(tails.inner)} by chance; dashes: ${hundred(tails.outer)}${spread.widen ? "; dots: widened" : ""}; open: too few to judge; ringed: outside`,
  columns: ["Ward", "Events", "Days", "Per 1,000", "Expected", "Lower", "Upper", "Stands", "A doubling would show"],
  rows: (wards: readonly WardPoint[]): readonly (readonly string[])[] =>
    wards.map((ward) => [
      ward.ward,
      whole(ward.events),
      whole(ward.days),
      two(ward.perThousand),
      amount(ward.expected, "", 1),
      two(ward.inner.lower),
      two(ward.inner.upper),
      standsWords(ward),
      inHundred(100 * ward.doublingSeen),
    ]),
};

/** The funnel of a measure as lines; where wards are told elsewhere, who stands outside and what chance would do. */
export function funnelLines(funnel: WardFunnel, withWards = true): readonly string[] {
  return [
    `${sayMeasure(funnel.measure)} by ward, no order of merit: ${whole(funnel.events)} in ${whole(funnel.days)} ${funnel.clock}.`,
    `  Exact limits keep at least ${hundred(funnel.tails.inner)} wards like all others.`,
    ...(withWards ? funnel.wards : []).map(
      (ward) =>
        `  ${ward.ward}: ${whole(ward.events)} in ${whole(ward.days)}, ${amount(ward.expected, "", 1)} expected; ${two(ward.perThousand)} per 1,000, limits ${two(ward.inner.lower)} to ${two(ward.inner.upper)}: ${standsWords(ward)}.`,
    ),
    ...[...wardSentences(funnel), doublingSentence(funnel)].map((line) => `  ${line}`),
  ];
}
