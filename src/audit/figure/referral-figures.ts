import { referralPasses, type Measure } from "../measure/index.ts";
import { REFERRAL_OUTCOMES, type ReferralRow } from "../line/index.ts";
import { dateAt } from "../packed/index.ts";
import type { Figure } from "./figure.ts";
import { shareOf } from "./figure-of.ts";
import type { Scene } from "./scene.ts";
import type { Parts } from "./split.ts";

/** Referrals of the period that pass a test, of the service and of each ward. */
export function referralFigures(
  measure: Measure,
  test: Parameters<typeof referralPasses>[0],
  { facts, opens, closes, limits, provisionalDay }: Scene,
  parts: Parts,
): readonly Figure[] {
  const { referrals } = facts.lines;
  const answers = REFERRAL_OUTCOMES.map((outcome) => referralPasses(test, { outcome } as ReferralRow));
  const column = () => new Float64Array(parts.slots);
  const [given, used, passed, late] = [column(), column(), column(), column()];
  const wards = parts.splits.flatMap(({ referralSlotOf }) => (referralSlotOf ? [referralSlotOf] : []));
  const within: number[] = [];
  const put = (slot: number, answer: boolean | undefined, isLate: boolean): void => {
    given[slot] = (given[slot] as number) + 1;
    if (answer === undefined) return;
    used[slot] = (used[slot] as number) + 1;
    if (!answer) return;
    passed[slot] = (passed[slot] as number) + 1;
    if (isLate) late[slot] = (late[slot] as number) + 1;
  };
  for (let at = 0; at < referrals.count; at += 1) {
    const on = dateAt(referrals.receivedOn, at);
    if (on < opens || on >= closes) continue;
    within.push(at);
    const answer = answers[referrals.outcome[at] as number];
    const isLate = on >= provisionalDay;
    put(0, answer, isLate);
    for (const slots of wards) put(slots[at] as number, answer, isLate);
  }
  return parts.told.flatMap(({ slot, stratum }) =>
    stratum !== undefined && stratum.by !== "ward"
      ? []
      : [
          shareOf(
            measure,
            { passed: passed[slot] as number, used: used[slot] as number, given: given[slot] as number },
            {
              stratum,
              provisional: late[slot] as number,
              lines: () =>
                within
                  .filter(
                    (at) =>
                      answers[referrals.outcome[at] as number] === true &&
                      (slot === 0 || wards.some((slots) => slots[at] === slot)),
                  )
                  .map((at) => referrals.keyAt(at)),
            },
            limits,
          ),
        ],
  );
}
