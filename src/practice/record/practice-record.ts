import type { CivilDate } from "../../core/calendar/index.ts";
import type { SealedEvent, Subject } from "../../register/index.ts";
import { ended, inDoubt, inUse } from "./practice-lives.ts";
import { PEOPLE, measured, ref, writer, type Writer } from "./writer.ts";

/** Practice patients of the record: each stands for one thing a service must not miss. */
const PATIENTS: readonly (readonly [
  id: string,
  number: string,
  name: string,
  bornOn: string,
  sex: "female" | "male",
])[] = [
  ["rowan", "P-20418", "ROWAN, Edda", "1968-05-04", "female"],
  ["birk", "P-11730", "BIRK, Oskar", "1982-02-17", "male"],
  ["solberg", "P-30951", "SOLBERG, Una", "1959-09-30", "female"],
  ["falk", "P-40077", "FALK, Henrike", "1955-03-12", "female"],
  ["thorn", "P-51163", "THORN, Malte", "1987-07-01", "male"],
  ["linden", "P-61240", "LINDEN, Mio", "2025-09-20", "male"],
  ["ahorn", "P-70815", "AHORN, Liv", "1974-12-08", "female"],
  ["eibe", "P-80242", "EIBE, Konrad", "1963-04-22", "male"],
  ["weide", "P-90533", "WEIDE, Ronja", "1979-10-15", "female"],
  ["hasel", "P-10964", "HASEL, Bente", "1946-01-27", "female"],
  ["ulme", "P-21387", "ULME, Jorun", "1971-08-03", "female"],
  ["erle", "P-32510", "ERLE, Tilda", "1990-06-19", "female"],
  ["rowan2", "P-20481", "ROWAN, Eda", "1968-05-04", "female"],
  ["kiefer", "P-44102", "KIEFER, Arvid", "1958-11-11", "male"],
];

const referral = (id: string): Subject => `referral:practice-${id}`;

/**
 * An invented service as its record would stand on a day: lines that may be used, one that moved, one that gives no
 * blood, one whose film shows the other arm, one nobody owns, one nobody has seen again.
 */
export function practiceRecord(today: CivilDate, offset: string): readonly SealedEvent[] {
  const w = writer(today, offset);
  for (const [id, number, name, bornOn, sex] of PATIENTS) {
    w.write(`patient:${ref(id)}`, [id === "ulme" ? 97 : 20, "08:10"], "PatientRegistered", {
      ...measured({ number, name, bornOn, sex, language: "as spoken here", phone: "0555 0199" }),
    });
  }
  w.write(`patient:${ref("kiefer")}`, [1, "09:00"], "ArmBarred", {
    ...measured({ arm: "left" as const, why: "fistula planned" as const }),
  });
  lots(w);
  referrals(w);
  inUse(w);
  inDoubt(w);
  ended(w);
  return w.events;
}

function lots(w: Writer): void {
  for (const [lot, french, lumens, expires, count] of [
    ["LX4417", 4, 1, 300, 40],
    ["LX4482", 4, 2, 12, 10],
    ["LX3305", 3, 1, 210, 15],
  ] as const) {
    w.write(
      `lot:practice-${lot}`,
      [120, "10:00"],
      "LotReceived",
      {
        ...measured({
          catheter: `${french} Fr ${lumens === 1 ? "single" : "double"}`,
          lotNumber: lot,
          french,
          lumens,
          expiresOn: w.day(-expires),
          count,
          how: "scanned" as const,
        }),
      },
      PEOPLE.stores,
    );
  }
}

function referrals(w: Writer): void {
  w.write(referral("erle"), [0, "07:20"], "ReferralReceived", {
    ...measured({ patient: ref("erle"), fromWard: "Ward 6", drugs: "cefazolin", calledBy: "ward doctor" }),
    daysLikely: { missing: "not known" },
    kidneyKnown: { value: false, from: "told" },
  });
  w.write(referral("kiefer"), [1, "07:40"], "ReferralReceived", {
    ...measured({
      patient: ref("kiefer"),
      fromWard: "Kidney unit",
      drugs: "meropenem",
      daysLikely: 6,
      kidneyKnown: true,
      eGfr: 22,
      onDialysis: false,
    }),
  });
  w.write(
    referral("kiefer"),
    [1, "08:05"],
    "ReferralDecided",
    {
      ...measured({
        outcome: "not a PICC" as const,
        instead: "short peripheral cannula" as const,
        why: "eGFR 22 and six days: keep the arm veins",
        decidedBy: "R. Brandt",
      }),
    },
    PEOPLE.lead,
  );
  w.write(referral("falk"), [1, "07:45"], "ReferralReceived", {
    ...measured({
      patient: ref("falk"),
      fromWard: "Ward 3",
      drugs: "vancomycin",
      daysLikely: 28,
      kidneyKnown: true,
      eGfr: 71,
    }),
  });
  w.write(
    referral("falk"),
    [1, "08:10"],
    "ReferralDecided",
    { ...measured({ outcome: "place a PICC" as const, why: "28 days, kidney well", decidedBy: "R. Brandt" }) },
    PEOPLE.lead,
  );
}
