import type { TipPlace } from "../../core/tip/index.ts";
import type { EntryOf, Subject } from "../../register/index.ts";
import { PEOPLE, line, measured, ref, type Writer } from "./writer.ts";

type When = readonly [daysAgo: number, clock: string];

/** How a line came in, and what it is. */
interface Placing {
  readonly daysAgo: number;
  readonly clock: string;
  readonly arm: "right" | "left";
  readonly ward: string;
  readonly inside: number;
  readonly outside: number;
  readonly lot: string;
  readonly french?: number;
  readonly lumens?: number;
  readonly vein?: "basilic" | "brachial" | "cephalic";
  readonly diameter?: number;
  readonly attempts?: number;
  readonly setting?: "ward" | "home";
}

/** Places a line as a scribe would have written it. */
function place(w: Writer, line: Subject, patient: string, placing: Placing): void {
  const { daysAgo, clock, arm, ward, inside, outside, lot } = placing;
  const french = placing.french ?? 4;
  const lumens = placing.lumens ?? 1;
  w.write(line, [daysAgo, clock], "LineInserted", {
    ...measured({
      patient,
      referral: patient,
      arm,
      vein: placing.vein ?? ("basilic" as const),
      attempts: placing.attempts ?? 1,
      veinDiameterMm: placing.diameter ?? 4.3,
      armLengthCm: 19.5,
      veinEntryCm: 12,
      skinExitCm: 10.8,
      catheter: `${french} Fr ${lumens === 1 ? "single" : "double"}`,
      french,
      lumens,
      lumenVolumeMl: lumens === 1 ? 0.5 : 0.35,
      lotNumber: lot,
      expiresOn: w.day(-400),
      insideCm: inside,
      outsideCm: outside,
      trimmedCm: 12,
      tipMethod: "film" as const,
      circumferenceCm: 28.5,
      circumferencePlaceCm: 10,
      ward,
      setting: placing.setting ?? ("ward" as const),
      inserter: "M. Kolm",
    }),
  });
}

interface Beginning extends Placing {
  /** The person's number, as it stands on the film. */
  readonly number: string;
  /** Read the day the line was placed; of the same arm and with its tip in place where nothing else is said. */
  readonly film: {
    readonly clock: string;
    readonly cm: number;
    readonly arm?: "right" | "left";
    readonly tipPlace?: TipPlace;
  };
  /** When on that day it was released; absent where it never was. */
  readonly released?: string;
}

/** The first day of a line: placed, its film read, and released where that came to pass. */
export function beginLine(w: Writer, id: string, { number, film, released, ...placing }: Beginning): void {
  const { daysAgo, arm, inside, outside } = placing;
  place(w, line(id), ref(id), placing);
  w.write(line(id), [daysAgo, film.clock], "TipRead", {
    ...measured({
      method: "film" as const,
      patientNumber: number,
      arm: film.arm ?? arm,
      tipPlace: film.tipPlace ?? ("cavo-atrial junction" as const),
      filmCm: film.cm,
      magnification: 1.12,
      armPosition: "at the side" as const,
      outsideCm: outside,
      insideCm: inside,
      readBy: "Dr N. Ferch",
    }),
  });
  if (released !== undefined) release(w, line(id), [daysAgo, released]);
}

function release(w: Writer, line: Subject, when: When): void {
  w.write(line, when, "LineReleased", {
    ...measured({
      uses: ["vesicant", "parenteral nutrition", "other drug", "blood", "sampling"] as const,
      releasedBy: "M. Kolm",
      toldTo: "ward nurse in charge",
    }),
  });
}

/** Names who answers for a line from then on, and the day that person comes next. */
export function own(
  w: Writer,
  line: Subject,
  when: When,
  owner: string,
  at: { place: string; setting: "ward" | "home"; nextInDays: number; order?: number },
): void {
  w.write(line, when, "OwnerNamed", {
    ...measured({
      owner,
      place: at.place,
      setting: at.setting,
      phone: at.setting === "home" ? "0555 0142" : "ext. 4417",
      nextOn: w.day(-at.nextInDays),
    }),
    ...(at.order === undefined ? {} : measured({ visitOrder: at.order })),
  });
}

/** A visit with nothing to report, changed where it says so. */
export function care(
  w: Writer,
  line: Subject,
  when: When,
  outside: number,
  changed: Partial<EntryOf<"CareGiven">> = {},
): void {
  w.write(
    line,
    when,
    "CareGiven",
    {
      ...measured({
        outsideCm: outside,
        bloodReturn: "yes" as const,
        flushes: "freely" as const,
        symptoms: ["none"] as const,
        site: ["clean"] as const,
        dressing: "transparent" as const,
        dressingState: "dry and whole" as const,
        dressingChanged: true,
        connectorChanged: true,
        flushed: true,
        stillNeeded: "yes" as const,
      }),
      ...changed,
    },
    PEOPLE.ward,
  );
}
