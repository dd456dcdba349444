import type { Subject } from "../../register/index.ts";
import { care, own, place, planned, readTip, release } from "./practice-lines.ts";
import { PEOPLE, measured, type Writer } from "./writer.ts";

const line = (id: string): Subject => `line:practice-${id}`;
const ref = (id: string) => `practice-${id}`;

/** Lines that may be used, each due for something. */
export function inUse(w: Writer): void {
  place(w, line("rowan"), ref("rowan"), {
    daysAgo: 14,
    clock: "10:20",
    arm: "right",
    ward: "Ward 4",
    inside: 41,
    outside: 2,
    lot: "LX4417",
  });
  readTip(w, line("rowan"), [14, "12:05"], "P-20418", { arm: "right", film: 4.6, outside: 2, inside: 41 });
  release(w, line("rowan"), [14, "12:20"]);
  own(w, line("rowan"), [14, "12:30"], "J. Tamm", { place: "Ward 4, bed 12", setting: "ward", nextInDays: 0 });
  care(w, line("rowan"), [7, "09:10"], 2);

  place(w, line("linden"), ref("linden"), {
    daysAgo: 5,
    clock: "11:00",
    arm: "left",
    ward: "Children",
    inside: 14.5,
    outside: 3,
    lot: "LX3305",
    french: 3,
    diameter: 2.6,
  });
  readTip(w, line("linden"), [5, "13:00"], "P-61240", { arm: "left", film: 1.6, outside: 3, inside: 14.5 });
  release(w, line("linden"), [5, "13:10"]);
  own(w, line("linden"), [5, "13:20"], "children's ward nurse", {
    place: "Children, bed 3",
    setting: "ward",
    nextInDays: 2,
  });
  care(w, line("linden"), [5, "13:30"], 3);

  place(w, line("ulme"), ref("ulme"), {
    daysAgo: 95,
    clock: "09:40",
    arm: "right",
    ward: "Oncology",
    inside: 40,
    outside: 1,
    lot: "LX4417",
    setting: "home",
  });
  readTip(w, line("ulme"), [95, "11:15"], "P-21387", { arm: "right", film: 4.5, outside: 1, inside: 40 });
  release(w, line("ulme"), [95, "11:30"]);
  own(w, line("ulme"), [93, "10:00"], "A. Orre", {
    place: "Home, 8 Mill Row",
    setting: "home",
    nextInDays: 1,
    order: 2,
  });
  care(w, line("ulme"), [6, "15:20"], 1);

  place(w, line("ahorn"), ref("ahorn"), {
    daysAgo: 19,
    clock: "09:30",
    arm: "right",
    ward: "Ward 2",
    inside: 39,
    outside: 2,
    lot: "LX4482",
    lumens: 2,
    attempts: 2,
  });
  readTip(w, line("ahorn"), [19, "12:10"], "P-70815", { arm: "right", film: 4.2, outside: 2, inside: 39 });
  release(w, line("ahorn"), [19, "12:25"]);
  own(w, line("ahorn"), [19, "12:30"], "ward 2 nurse", { place: "Ward 2, bed 7", setting: "ward", nextInDays: -2 });
  care(w, line("ahorn"), [9, "08:30"], 2, { stillNeeded: { value: "only blood sampling", from: "measured" } });
}

/** Lines that must not be used, or not yet: each for a reason of its own. */
export function inDoubt(w: Writer): void {
  place(w, line("birk"), ref("birk"), {
    daysAgo: 30,
    clock: "09:10",
    arm: "right",
    ward: "Ward 5",
    inside: 43,
    outside: 1,
    lot: "LX4417",
    setting: "home",
  });
  readTip(w, line("birk"), [30, "11:00"], "P-11730", { arm: "right", film: 4.8, outside: 1, inside: 43 });
  release(w, line("birk"), [30, "11:10"]);
  own(w, line("birk"), [27, "14:00"], "A. Orre", {
    place: "Home, 3 Quay Street",
    setting: "home",
    nextInDays: 0,
    order: 1,
  });
  care(w, line("birk"), [8, "14:40"], 1);
  w.write(
    line("birk"),
    [1, "16:10"],
    "LineUsed",
    { ...measured({ what: "vesicant" as const, drug: "as charted" }) },
    PEOPLE.home,
  );
  // written the next morning: the line had moved before the drug went in
  w.write(
    line("birk"),
    [1, "15:30"],
    "CareGiven",
    {
      ...measured({
        outsideCm: 4,
        bloodReturn: "sluggish" as const,
        flushes: "freely" as const,
        symptoms: ["none"] as const,
        site: ["clean"] as const,
        dressingState: "loose" as const,
        dressingChanged: true,
        dressing: "transparent" as const,
        stillNeeded: "yes" as const,
      }),
    },
    PEOPLE.home,
    1,
  );

  place(w, line("solberg"), ref("solberg"), {
    daysAgo: 11,
    clock: "10:00",
    arm: "left",
    ward: "Ward 1",
    inside: 42,
    outside: 2,
    lot: "LX4417",
  });
  readTip(w, line("solberg"), [11, "12:00"], "P-30951", { arm: "left", film: 4.4, outside: 2, inside: 42 });
  release(w, line("solberg"), [11, "12:10"]);
  own(w, line("solberg"), [11, "12:15"], "ward 1 nurse", { place: "Ward 1, bed 2", setting: "ward", nextInDays: 0 });
  care(w, line("solberg"), [0, "06:50"], 2, { bloodReturn: { value: "no", from: "measured" } });

  place(w, line("falk"), ref("falk"), {
    daysAgo: 0,
    clock: "07:10",
    arm: "left",
    ward: "Ward 3",
    inside: 43.5,
    outside: 0.5,
    lot: "LX4417",
  });
  readTip(w, line("falk"), [0, "07:40"], "P-40077", {
    arm: "left",
    film: 7.3,
    outside: 0.5,
    inside: 43.5,
    place: "right atrium",
  });

  place(w, line("thorn"), ref("thorn"), {
    daysAgo: 1,
    clock: "13:10",
    arm: "right",
    ward: "Ward 5",
    inside: 42,
    outside: 1,
    lot: "LX4417",
  });
  readTip(w, line("thorn"), [1, "15:00"], "P-51163", { arm: "left", film: 4.5, outside: 1, inside: 42 });
  own(w, line("thorn"), [1, "15:10"], "ward 5 nurse", { place: "Ward 5, bed 9", setting: "ward", nextInDays: 6 });

  place(w, line("eibe"), ref("eibe"), {
    daysAgo: 17,
    clock: "08:50",
    arm: "right",
    ward: "Ward 4",
    inside: 42,
    outside: 2,
    lot: "LX4417",
  });
  readTip(w, line("eibe"), [17, "10:40"], "P-80242", { arm: "right", film: 4.7, outside: 2, inside: 42 });
  release(w, line("eibe"), [17, "10:50"]);
  own(w, line("eibe"), [17, "11:00"], "J. Tamm", { place: "Ward 4, bed 15", setting: "ward", nextInDays: 4 });
  care(w, line("eibe"), [3, "09:20"], 2);
  w.write(
    line("eibe"),
    [2, "10:00"],
    "InfectionSuspected",
    {
      ...measured({
        signs: ["fever", "chills"] as const,
        temperatureC: 38.6,
        otherSource: "none found" as const,
        whoDecides: "ward doctor",
      }),
    },
    PEOPLE.ward,
  );
  const at = (daysAgo: number, clock: string) =>
    `${w.day(daysAgo)}T${clock}${w.events[0]?.happenedAt.slice(16) ?? "Z"}`;
  w.write(
    line("eibe"),
    [2, "10:20"],
    "CulturesTaken",
    {
      ...measured({
        bottles: [
          {
            site: "line" as const,
            lumen: 1,
            drawnAt: at(2, "10:05"),
            loadedAt: at(2, "10:20"),
            flaggedAt: at(2, "19:05"),
            volumeMl: 9,
            organism: "Gram-positive cocci",
          },
          {
            site: "peripheral vein" as const,
            drawnAt: at(2, "10:10"),
            loadedAt: at(2, "13:50"),
            flaggedAt: at(1, "00:20"),
            volumeMl: 9,
            organism: "Gram-positive cocci",
          },
        ],
        antibioticsBefore: false,
      }),
    },
    PEOPLE.lab,
  );

  // discharged without an owner: it must come up by itself
  w.write(line("erle"), [13, "09:00"], "LineFound", {
    ...measured({ patient: ref("erle"), arm: "right" as const, ward: "came from elsewhere" }),
    insideCm: { missing: "not known" },
    outsideCm: { value: 3, from: "measured" },
    french: planned(4),
    lotNumber: { missing: "not known" },
  });
}

/** Lines that are out, or that nobody has seen again. */
export function ended(w: Writer): void {
  place(w, line("weide"), ref("weide"), {
    daysAgo: 24,
    clock: "09:00",
    arm: "right",
    ward: "Ward 2",
    inside: 41,
    outside: 2,
    lot: "LX4417",
  });
  readTip(w, line("weide"), [24, "11:00"], "P-90533", { arm: "right", film: 4.6, outside: 2, inside: 41 });
  release(w, line("weide"), [24, "11:10"]);
  w.write(
    line("weide"),
    [3, "10:00"],
    "LineRemoved",
    {
      ...measured({
        reason: "treatment ended" as const,
        planned: true,
        lengthOutCm: 43,
        tipWhole: true,
        resistance: false,
        removedBy: "J. Tamm",
      }),
    },
    PEOPLE.ward,
  );
  place(w, line("hasel"), ref("hasel"), {
    daysAgo: 60,
    clock: "10:30",
    arm: "left",
    ward: "Ward 6",
    inside: 38,
    outside: 2,
    lot: "LX4417",
    setting: "home",
  });
  readTip(w, line("hasel"), [60, "12:00"], "P-10964", { arm: "left", film: 4.3, outside: 2, inside: 38 });
  release(w, line("hasel"), [60, "12:10"]);
  own(w, line("hasel"), [58, "12:15"], "district nurse", {
    place: "Home, far valley",
    setting: "home",
    nextInDays: -51,
    order: 3,
  });
  w.write(
    line("hasel"),
    [20, "16:00"],
    "EndUnknown",
    { ...measured({ lastSeenOn: w.day(51), lastOwner: "district nurse" }) },
    PEOPLE.lead,
  );
}
