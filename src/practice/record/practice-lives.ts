import { fromPlan } from "../../register/index.ts";
import { care, own, beginLine } from "./practice-lines.ts";
import { PEOPLE, line, measured, ref, type Writer } from "./writer.ts";

/** Lines that may be used, each due for something. */
export function inUse(w: Writer): void {
  beginLine(w, "rowan", {
    number: "P-20418",
    daysAgo: 14,
    clock: "10:20",
    arm: "right",
    ward: "Ward 4",
    inside: 41,
    outside: 2,
    lot: "LX4417",
    film: { clock: "12:05", cm: 4.6 },
    released: "12:20",
  });
  own(w, line("rowan"), [14, "12:30"], "J. Tamm", { place: "Ward 4, bed 12", setting: "ward", nextInDays: 0 });
  care(w, line("rowan"), [7, "09:10"], 2);

  beginLine(w, "linden", {
    number: "P-61240",
    daysAgo: 5,
    clock: "11:00",
    arm: "left",
    ward: "Children",
    inside: 14.5,
    outside: 3,
    lot: "LX3305",
    french: 3,
    diameter: 2.6,
    film: { clock: "13:00", cm: 1.6 },
    released: "13:10",
  });
  own(w, line("linden"), [5, "13:20"], "children's ward nurse", {
    place: "Children, bed 3",
    setting: "ward",
    nextInDays: 2,
  });
  care(w, line("linden"), [5, "13:30"], 3);

  beginLine(w, "ulme", {
    number: "P-21387",
    daysAgo: 95,
    clock: "09:40",
    arm: "right",
    ward: "Oncology",
    inside: 40,
    outside: 1,
    lot: "LX4417",
    setting: "home",
    film: { clock: "11:15", cm: 4.5 },
    released: "11:30",
  });
  own(w, line("ulme"), [93, "10:00"], "A. Orre", {
    place: "Home, 8 Mill Row",
    setting: "home",
    nextInDays: 1,
    order: 2,
  });
  care(w, line("ulme"), [6, "15:20"], 1);

  beginLine(w, "ahorn", {
    number: "P-70815",
    daysAgo: 19,
    clock: "09:30",
    arm: "right",
    ward: "Ward 2",
    inside: 39,
    outside: 2,
    lot: "LX4482",
    lumens: 2,
    attempts: 2,
    film: { clock: "12:10", cm: 4.2 },
    released: "12:25",
  });
  own(w, line("ahorn"), [19, "12:30"], "ward 2 nurse", { place: "Ward 2, bed 7", setting: "ward", nextInDays: -2 });
  care(w, line("ahorn"), [9, "08:30"], 2, { stillNeeded: { value: "only blood sampling", from: "measured" } });
}

/** Lines that must not be used, or not yet: each for a reason of its own. */
export function inDoubt(w: Writer): void {
  beginLine(w, "birk", {
    number: "P-11730",
    daysAgo: 30,
    clock: "09:10",
    arm: "right",
    ward: "Ward 5",
    inside: 43,
    outside: 1,
    lot: "LX4417",
    setting: "home",
    film: { clock: "11:00", cm: 4.8 },
    released: "11:10",
  });
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
    measured({ what: "vesicant" as const, drug: "as charted" }),
    PEOPLE.home,
  );
  // written the next morning: the line had moved before the drug went in
  w.write(
    line("birk"),
    [1, "15:30"],
    "CareGiven",
    measured({
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
    PEOPLE.home,
    1,
  );

  beginLine(w, "solberg", {
    number: "P-30951",
    daysAgo: 11,
    clock: "10:00",
    arm: "left",
    ward: "Ward 1",
    inside: 42,
    outside: 2,
    lot: "LX4417",
    film: { clock: "12:00", cm: 4.4 },
    released: "12:10",
  });
  own(w, line("solberg"), [11, "12:15"], "ward 1 nurse", { place: "Ward 1, bed 2", setting: "ward", nextInDays: 0 });
  care(w, line("solberg"), [0, "06:50"], 2, { bloodReturn: { value: "no", from: "measured" } });

  beginLine(w, "falk", {
    number: "P-40077",
    daysAgo: 0,
    clock: "07:10",
    arm: "left",
    ward: "Ward 3",
    inside: 43.5,
    outside: 0.5,
    lot: "LX4417",
    film: { clock: "07:40", cm: 7.3, tipPlace: "right atrium" },
  });

  beginLine(w, "thorn", {
    number: "P-51163",
    daysAgo: 1,
    clock: "13:10",
    arm: "right",
    ward: "Ward 5",
    inside: 42,
    outside: 1,
    lot: "LX4417",
    film: { clock: "15:00", cm: 4.5, arm: "left" },
  });
  own(w, line("thorn"), [1, "15:10"], "ward 5 nurse", { place: "Ward 5, bed 9", setting: "ward", nextInDays: 6 });

  beginLine(w, "eibe", {
    number: "P-80242",
    daysAgo: 17,
    clock: "08:50",
    arm: "right",
    ward: "Ward 4",
    inside: 42,
    outside: 2,
    lot: "LX4417",
    film: { clock: "10:40", cm: 4.7 },
    released: "10:50",
  });
  own(w, line("eibe"), [17, "11:00"], "J. Tamm", { place: "Ward 4, bed 15", setting: "ward", nextInDays: 4 });
  care(w, line("eibe"), [3, "09:20"], 2);
  w.write(
    line("eibe"),
    [2, "10:00"],
    "InfectionSuspected",
    measured({
      signs: ["fever", "chills"] as const,
      temperatureC: 38.6,
      otherSource: "none found" as const,
      whoDecides: "ward doctor",
    }),
    PEOPLE.ward,
  );
  const at = (daysAgo: number, clock: string) =>
    `${w.day(daysAgo)}T${clock}${w.events[0]?.happenedAt.slice(16) ?? "Z"}`;
  w.write(
    line("eibe"),
    [2, "10:20"],
    "CulturesTaken",
    measured({
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
    PEOPLE.lab,
  );

  // discharged without an owner: it must come up by itself
  w.write(line("erle"), [13, "09:00"], "LineFound", {
    ...measured({ patient: ref("erle"), arm: "right" as const, ward: "came from elsewhere" }),
    insideCm: { missing: "not known" },
    outsideCm: { value: 3, from: "measured" },
    french: fromPlan(4), // stands from a plan until somebody confirms it
    lotNumber: { missing: "not known" },
  });
}

/** Lines that are out, or that nobody has seen again. */
export function ended(w: Writer): void {
  beginLine(w, "weide", {
    number: "P-90533",
    daysAgo: 24,
    clock: "09:00",
    arm: "right",
    ward: "Ward 2",
    inside: 41,
    outside: 2,
    lot: "LX4417",
    film: { clock: "11:00", cm: 4.6 },
    released: "11:10",
  });
  w.write(
    line("weide"),
    [3, "10:00"],
    "LineRemoved",
    measured({
      reason: "treatment ended" as const,
      planned: true,
      lengthOutCm: 43,
      tipWhole: true,
      resistance: false,
      removedBy: "J. Tamm",
    }),
    PEOPLE.ward,
  );
  beginLine(w, "hasel", {
    number: "P-10964",
    daysAgo: 60,
    clock: "10:30",
    arm: "left",
    ward: "Ward 6",
    inside: 38,
    outside: 2,
    lot: "LX4417",
    setting: "home",
    film: { clock: "12:00", cm: 4.3 },
    released: "12:10",
  });
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
    measured({ lastSeenOn: w.day(51), lastOwner: "district nurse" }),
    PEOPLE.lead,
  );
}
