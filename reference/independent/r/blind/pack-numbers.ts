/**
 * The answer of `pack --json` as a flat list of named numbers and words, under the names that count.R gives them.
 * Nothing is worked out here: each entry is a field of the answer.
 */
type Limits = { readonly lower: number; readonly upper: number };
type Figure = {
  readonly measure: string;
  readonly form: string;
  readonly numerator: number;
  readonly denominator?: number;
  readonly value?: number;
  readonly interval: { readonly limits?: Limits };
  readonly used: number;
  readonly given: number;
  readonly missing: { readonly count: number; readonly bounds?: Limits; readonly outer?: Limits };
  readonly provisional: number;
  readonly stratum?: { readonly by: string; readonly value: string };
};
type Gap = { readonly notKnown: number; readonly given: number };
export type PackAnswer = {
  readonly figures: readonly {
    readonly now: Figure;
    readonly before: Figure;
    readonly neverWritten: boolean;
    readonly direction?: string;
  }[];
  readonly issues: readonly { readonly code: string; readonly lines: readonly string[] }[];
  readonly linesUsed: number;
  readonly linesGiven: number;
  readonly declinedInstead: readonly { readonly instead: string; readonly referrals: number }[];
  readonly enough: readonly { readonly measure: string; readonly expectedInMonth: number; readonly events: number }[];
  readonly monitor?: {
    readonly charts: readonly {
      readonly measure: string;
      readonly plan: {
        readonly expectedPerYear: number;
        readonly base?: {
          readonly events: number;
          readonly perThousand: number;
          readonly lower: number;
          readonly upper: number;
        };
      };
      readonly spans: readonly {
        readonly events: number;
        readonly lineDays: number;
      }[];
    }[];
  };
  readonly year: { readonly figures: readonly Figure[] };
  readonly funnels: readonly {
    readonly measure: string;
    readonly wards: readonly {
      readonly ward: string;
      readonly events: number;
      readonly expected: number;
      readonly days: number;
      readonly judged: boolean;
    }[];
  }[];
  readonly noOwner: readonly unknown[];
  readonly overdue: readonly unknown[];
  readonly overrides: readonly unknown[];
  readonly unknownEnds: readonly unknown[];
  readonly lowFiltration: readonly unknown[];
  readonly shortStays: readonly unknown[];
  readonly gaps: Readonly<Record<string, Gap>>;
  readonly lots?: {
    readonly expiring: readonly { readonly lot: string; readonly daysLeft: number; readonly left: number }[];
    readonly recalled: readonly { readonly lot: string; readonly unknownEnds: readonly string[] }[];
  };
};
export type Named = { readonly numbers: Map<string, number>; readonly words: Map<string, string> };

export const packNumbers = (pack: PackAnswer): Named => {
  const numbers = new Map<string, number>();
  const words = new Map<string, string>();
  const put = (name: string, value: number | undefined) => {
    if (value !== undefined) numbers.set(name, value);
  };
  const figure = (place: string, found: Figure) => {
    const name = `${place}.${found.measure}`;
    put(`${name}.numerator`, found.numerator);
    put(`${name}.denominator`, found.denominator);
    put(`${name}.value`, found.value);
    put(`${name}.lower`, found.interval.limits?.lower);
    put(`${name}.upper`, found.interval.limits?.upper);
    put(`${name}.used`, found.used);
    put(`${name}.given`, found.given);
    put(`${name}.missing`, found.missing.count);
    put(`${name}.bound.lower`, found.missing.bounds?.lower);
    put(`${name}.bound.upper`, found.missing.bounds?.upper);
    put(`${name}.outer.lower`, found.missing.outer?.lower);
    put(`${name}.outer.upper`, found.missing.outer?.upper);
    put(`${name}.provisional`, found.provisional);
    words.set(`${name}.form`, found.form);
  };
  for (const { now, before, neverWritten, direction } of pack.figures) {
    figure("now", now);
    figure("before", before);
    words.set(`never.${now.measure}`, neverWritten ? "yes" : "no");
    if (direction !== undefined) words.set(`direction.${now.measure}`, direction);
  }
  for (const found of pack.year.figures)
    figure(found.stratum ? `year|${found.stratum.by}=${found.stratum.value}` : "year", found);
  for (const { measure, wards } of pack.funnels)
    for (const unit of wards) {
      const name = `funnel.${measure}.${unit.ward}`;
      put(`${name}.events`, unit.events);
      put(`${name}.expected`, unit.expected);
      put(`${name}.lineDays`, unit.days);
      put(`${name}.judged`, unit.judged ? 1 : 0);
    }
  for (const { measure, expectedInMonth, events } of pack.enough) {
    put(`enough.${measure}.expected`, expectedInMonth);
    put(`enough.${measure}.events`, events);
  }
  for (const { measure, plan, spans } of pack.monitor?.charts ?? []) {
    const name = `time.${measure}`;
    put(`${name}.expectedPerYear`, plan.expectedPerYear);
    put(`${name}.base.events`, plan.base?.events);
    put(`${name}.base.perThousand`, plan.base?.perThousand);
    put(`${name}.base.lower`, plan.base?.lower);
    put(`${name}.base.upper`, plan.base?.upper);
    for (const [at, { events, lineDays }] of spans.entries()) {
      put(`${name}.span${at + 1}.events`, events);
      put(`${name}.span${at + 1}.lineDays`, lineDays);
    }
  }
  put("linesUsed", pack.linesUsed);
  put("linesGiven", pack.linesGiven);
  for (const { code, lines } of pack.issues) put(`issue.${code}`, lines.length);
  for (const list of ["noOwner", "overdue", "overrides", "unknownEnds", "lowFiltration", "shortStays"] as const)
    put(`list.${list}`, pack[list].length);
  for (const [name, { notKnown, given }] of Object.entries(pack.gaps)) {
    put(`gap.${name}.notKnown`, notKnown);
    put(`gap.${name}.given`, given);
  }
  for (const { instead, referrals } of pack.declinedInstead) put(`instead.${instead}`, referrals);
  if (pack.lots) {
    put("lots.expiring", pack.lots.expiring.length);
    for (const { lot, daysLeft, left } of pack.lots.expiring) {
      put(`lot.${lot}.daysLeft`, daysLeft);
      put(`lot.${lot}.left`, left);
    }
    put("lots.recalled", pack.lots.recalled.length);
    for (const { lot, unknownEnds } of pack.lots.recalled) put(`lot.${lot}.unknownEnds`, unknownEnds.length);
  }
  return { numbers, words };
};
