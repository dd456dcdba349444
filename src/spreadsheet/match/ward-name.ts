/** Spellings of one ward, and the name a person gave it. */
export interface WardName {
  readonly name: string;
  readonly spellings: readonly string[];
}

/** Spellings that may be one ward, each with its lines; the one with most lines first. */
export type AlikeWards = readonly (readonly [spelling: string, lines: number])[];

/**
 * What is left of a spelling without case, spaces, punctuation, and a "Ward" or "W" before its number. Two numbers side
 * by side stay two: "1 2" is not "12".
 */
function bareWard(spelling: string): string {
  const bare = spelling
    .normalize("NFKC")
    .toLowerCase()
    .replaceAll(/(?<=\p{Nd})[\p{P}\s]+(?=\p{Nd})/gu, "|")
    .replaceAll(/[\p{P}\s]+/gu, "");
  return bare === "" ? spelling : bare.replace(/^(?:ward|w)(?=\p{Nd})/u, "");
}

/**
 * Groups of two spellings or more that are alike but for case, spaces, punctuation and a leading "Ward" or "W" before the
 * same number. Ward 4 and Ward 4A are not alike. They are put to a person and never merged by themselves.
 */
export function alikeWards(wards: ReadonlyMap<string, number>): readonly AlikeWards[] {
  const groups = new Map<string, (readonly [string, number])[]>();
  for (const one of wards) {
    const bare = bareWard(one[0]);
    groups.set(bare, [...(groups.get(bare) ?? []), one]);
  }
  return [...groups.values()]
    .filter(({ length }) => length > 1)
    .map((group) => group.toSorted(([a, many], [b, more]) => more - many || (a < b ? -1 : 1)));
}

/** Spellings put to a person: a suggestion, or what was merged before with what is new beside it. */
export interface WardOffer {
  readonly spellings: AlikeWards;
  readonly kept: WardName | undefined;
  /** Whether every one of them is merged already. */
  readonly whole: boolean;
}

/** What is asked of the wards of a file: the merged ones first, each with the new spellings like it. */
export function wardOffers(
  spellings: ReadonlyMap<string, number>,
  kept: readonly WardName[] = [],
): readonly WardOffer[] {
  const alike = alikeWards(spellings);
  const named = wardNames(kept);
  const merged = kept.map((one): WardOffer => {
    const near = alike.filter((group) => group.some(([spelling]) => one.spellings.includes(spelling)));
    const fresh = near.flat().filter(([spelling]) => !named.has(spelling));
    const own = one.spellings.map((spelling) => [spelling, spellings.get(spelling) ?? 0] as const);
    return { spellings: [...own, ...fresh], kept: one, whole: fresh.length === 0 };
  });
  const others = alike.filter((group) => !group.some(([spelling]) => named.has(spelling)));
  return [...merged, ...others.map((group) => ({ spellings: group, kept: undefined, whole: false }))];
}

/** What a person said of one offer. */
export interface WardAnswer {
  readonly ticked: boolean;
  readonly name: string;
}

/** The wards as answered. An offer that is not ticked is not merged; what was merged before it grew stays so. */
export const answeredWards = (offers: readonly WardOffer[], answers: readonly WardAnswer[]): readonly WardName[] =>
  offers.flatMap(({ spellings, kept, whole }, at) => {
    const { ticked = false, name = "" } = answers[at] ?? {};
    if (ticked) return [{ name: name.trim(), spellings: spellings.map(([spelling]) => spelling) }];
    return kept && !whole ? [kept] : [];
  });

/** The name of each spelling that a matching merges. */
export const wardNames = (wards: readonly WardName[] = []): ReadonlyMap<string, string> =>
  new Map(wards.flatMap(({ name, spellings }) => spellings.map((spelling) => [spelling, name] as const)));

const numbersIn = (text: string): string => (text.normalize("NFKC").match(/\p{Nd}+/gu) ?? []).join(" ");

/** What forbids a merging: wards of different numbers are different wards, and one spelling has one name. */
export function wardQuestions(
  wards: readonly WardName[] = [],
): readonly { readonly code: "ward numbers differ" | "ward spelling twice"; readonly header: string }[] {
  const seen = new Set<string>();
  return wards.flatMap(({ name, spellings }) => {
    const twice = spellings.find((spelling) => seen.has(spelling));
    for (const spelling of spellings) seen.add(spelling);
    const numbers = new Set(spellings.map(numbersIn));
    // a name without a number may stand for any one
    if (numbersIn(name) !== "") numbers.add(numbersIn(name));
    return [
      ...(numbers.size > 1 ? [{ code: "ward numbers differ" as const, header: name }] : []),
      ...(twice === undefined ? [] : [{ code: "ward spelling twice" as const, header: twice }]),
    ];
  });
}

/** The wards of a kept matching; undefined when they are not such a list. */
export function readWardNames(data: unknown): readonly WardName[] | undefined {
  if (data === undefined) return [];
  if (!Array.isArray(data)) return undefined;
  const wards: WardName[] = [];
  for (const one of data as readonly unknown[]) {
    const { name, spellings } = (typeof one === "object" && one !== null ? one : {}) as Partial<
      Record<string, unknown>
    >;
    if (typeof name !== "string" || name.trim() === "" || !Array.isArray(spellings)) return undefined;
    if (!spellings.every((spelling) => typeof spelling === "string")) return undefined;
    wards.push({ name: name.trim().slice(0, 80), spellings });
  }
  return wards;
}
