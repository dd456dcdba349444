import { isMissing } from "../../core/missing/index.ts";
import { REFERRAL_OUTCOMES, type ReferralRow } from "../line/index.ts";
import {
  absenceOf,
  absentCode,
  momentAt,
  moments,
  packMoment,
  type PackedMoments,
  type PackedWords,
} from "./packed-lines.ts";
import { wordList } from "./word-list.ts";

/** The referrals of a table as typed columns. */
export interface PackedReferrals {
  readonly count: number;
  readonly keyAt: (referral: number) => string;
  readonly receivedOn: PackedMoments;
  /** Places in REFERRAL_OUTCOMES. */
  readonly outcome: Uint8Array;
  readonly instead: PackedWords;
  readonly ward: PackedWords;
}

export function packReferrals(rows: readonly ReferralRow[]): PackedReferrals {
  const count = rows.length;
  const [instead, ward] = [wordList(), wordList()];
  const packed = {
    count,
    keyAt: (at: number) => (rows[at] as ReferralRow).key,
    receivedOn: moments(count),
    outcome: new Uint8Array(count),
    instead: { codes: new Int32Array(count), words: instead.words },
    ward: { codes: new Int32Array(count), words: ward.words },
  };
  for (const [at, row] of rows.entries()) {
    packMoment(packed.receivedOn, at, row.receivedOn);
    packed.outcome[at] = REFERRAL_OUTCOMES.indexOf(row.outcome);
    packed.instead.codes[at] = isMissing(row.instead) ? absentCode(row.instead) : instead.codeOf(row.instead);
    packed.ward.codes[at] = isMissing(row.ward) ? absentCode(row.ward) : ward.codeOf(row.ward);
  }
  return packed;
}

const wordAt = ({ codes, words }: PackedWords, at: number) => {
  const code = codes[at] as number;
  return code < 0 ? absenceOf(code) : (words[code] as string);
};

export const referralAt = (
  { keyAt, receivedOn, outcome, instead, ward }: PackedReferrals,
  at: number,
): ReferralRow => ({
  key: keyAt(at),
  receivedOn: momentAt(receivedOn, at) as ReferralRow["receivedOn"],
  outcome: REFERRAL_OUTCOMES[outcome[at] as number] as ReferralRow["outcome"],
  instead: wordAt(instead, at),
  ward: wordAt(ward, at),
});
