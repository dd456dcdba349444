import { describe, expect, test } from "vitest";
import { checkTable, hazardModel, timeToEvent, type AuditTable, type LineRow } from "../../../src/audit/index.ts";
import { missing } from "../../../src/core/missing/index.ts";
import type { PolicyRow } from "../../../src/core/reason/index.ts";
import { countLimitsFrom, defaultPolicyTable, tableWithValues, type PolicyTable } from "../../../src/policy/index.ts";
import { measures, surveillance } from "../../independent/count/counted-year.ts";
import { isQualityRow } from "../need-keys.ts";
import { dated, happened, plainRow, removed, timed } from "./plain-row.ts";

/** Every limit of the later rules of quality is moved, and what is told must move with it. */
const none = missing("not asked");
const stay = (key: string, more: Partial<LineRow>): LineRow =>
  plainRow(key, "2025-03-03", removed("2025-03-20"), { patient: `patient of ${key}`, ...more });
const body = (key: string, weightKg: number, ageYears?: number): LineRow =>
  stay(key, {
    ...(ageYears === undefined ? {} : { ageYears }),
    checks: { insideCm: none, weightKg, replaces: none, timeKnownTo: none, writtenAfter: none },
  });
const ages = defaultPolicyTable["quality.weight-ages"].value;
const least = defaultPolicyTable["quality.weight-least"].value;
const most = defaultPolicyTable["quality.weight-most"].value;
const pair = (key: string, from: string): readonly LineRow[] => [
  plainRow(`old ${key}`, "2025-03-01T09:00Z", removed("2025-03-10T10:00Z", "replaced"), { patient: key }),
  plainRow(`new ${key}`, from, removed("2025-03-30T10:00Z"), { patient: key }),
];
const long = (key: string, sizeFr: number, insideCm: number): LineRow =>
  stay(key, { sizeFr, checks: { insideCm, weightKg: none, replaces: none, timeKnownTo: none, writtenAfter: none } });

const odd: readonly LineRow[] = [
  ...[1, 2, 3, 4].flatMap((lumens) =>
    [-0.5, 0, 0.5].map((off) =>
      stay(`${lumens} in ${off}`, {
        lumens,
        sizeFr: (defaultPolicyTable["quality.least-size-of-lumens"].value[lumens - 1] as number) + off,
      }),
    ),
  ),
  ...[49.5, 50, 50.5].flatMap((cm) => [1.5, 2, 2.5].map((size) => long(`${size} ${cm}`, size, cm))),
  // without an age only the limits of any body hold
  ...[0.2, 0.3, 0.4, 349, 350, 351].map((kg) => body(`${kg} kg`, kg)),
  ...ages.flatMap((age, band) =>
    [age, age + 0.4, age - 0.4].flatMap((years) =>
      [-0.5, 0, 0.5].flatMap((off) => [
        body(`${years} ${band} least ${off}`, (least[band] as number) + off, years),
        body(`${years} ${band} most ${off}`, (most[band] as number) + off, years),
      ]),
    ),
  ),
  ...["2025-03-11T10:00Z", "2025-03-11T22:00Z", "2025-03-10T04:00Z", "2025-03-10T03:30Z"].flatMap((from, at) =>
    pair(`p${at}`, from),
  ),
  stay("ward", { ward: "Elm" }),
];
/** 2,000 lines of which four in a hundred, six in a hundred and a fifth lack something. */
const many: readonly LineRow[] = Array.from({ length: 2000 }, (_, at) =>
  stay(`m${at}`, {
    ...(at < 15 || at >= 1935 ? {} : { attempts: 1 + (at % 2) }),
    ...(at % 100 < 5 ? {} : { sizeFr: 4 }),
    ...(at % 1000 < 52 ? {} : { side: at % 3 === 0 ? "left arm" : "right arm" }),
    ...(at % 5 === 1 ? {} : { lumens: 1 + (at % 2) }),
    ageYears: 30 + (at % 40),
    events: at < 200 ? [happened("occlusion", "2025-03-05")] : [],
  }),
);
const wardMonth = (key: string, manualDays: number) => ({
  key,
  ward: "Elm",
  month: dated("2025-03-01"),
  patientDays: 900,
  manualDays,
  sampledWithLine: none,
  sampledAll: none,
});
const table = (lines: readonly LineRow[]): AuditTable => ({
  asOf: timed("2025-07-15T12:00Z"),
  lines,
  referrals: [],
  wardMonths: [16, 17, 18].map((days) => wardMonth(`${days}`, days)),
});
const occlusions = measures().find(({ id }) => id === "occlusion");
const both = [table(odd), table(many)] as const;

function answers(policy: PolicyTable): string {
  const limits = countLimitsFrom(policy);
  const checked = both.map((one) => checkTable(one, limits, surveillance));
  const followed = timeToEvent(checked[1]?.facts ?? [], occlusions as NonNullable<typeof occlusions>);
  return JSON.stringify([
    checked.map(({ issues }) => issues),
    (["lumens", "attempts"] as const).map((factor) => hazardModel(followed, [factor, "age"], limits).kind),
  ]);
}

describe("every limit of quality decides something", () => {
  const before = answers(defaultPolicyTable);
  for (const [key, row] of Object.entries(defaultPolicyTable as Record<string, PolicyRow>)) {
    if (!isQualityRow(key)) continue;
    test(key, () => {
      const { value } = row;
      const moved =
        typeof value === "number"
          ? [value * 0.6, value * 1.4]
          : (value as readonly number[]).flatMap((one, at) =>
              [-0.3, 0.3].map((step) =>
                (value as readonly number[]).map((same, place) => (place === at ? one + step : same)),
              ),
            );
      const after = moved.map((next) => answers(tableWithValues(defaultPolicyTable, { [key]: next })) !== before);
      // a list must move with each of its numbers, up or down; a number one way or the other
      const moves =
        typeof value === "number"
          ? [after]
          : (value as readonly number[]).map((_, at) => after.slice(2 * at, 2 * at + 2));
      for (const [at, each] of moves.entries()) expect(each.some(Boolean), `${key}, number ${at + 1}`).toBe(true);
    });
  }
});
