/**
 * Twenty spreadsheets of one invented year of lines, each in the style of another house, with faults of stated kinds put
 * in at known rows and with lawful oddities that a checker may wrongly complain about. Seeds are fixed.
 */
import { utils, write } from "@e965/xlsx";
import { addDays, dayNumber, type CivilDate } from "../../src/core/calendar/index.ts";
import type { FieldName, RowFaultCode } from "../../src/spreadsheet/index.ts";

export const SEEDED: Readonly<Record<string, readonly RowFaultCode[]>> = {
  "removed before placed": ["removed before placed"],
  "placed in the future": ["placed in the future"],
  // before a workbook's first day there is no date to be written
  "age impossible": ["age impossible", "born after placed", "date unreadable"],
  "gauge written for French": ["outside the usual"],
  "arm contradicts the vein": ["arm against vein"],
  "event long after removal": ["event after removal"],
  "row entered twice": ["same line twice"],
  "two lines overlap, same arm": ["lines overlap"],
  "day that does not exist": ["placed date unreadable"],
  "number in words": ["not a number"],
  "no patient number": ["no patient"],
  "vein in the other unit": ["outside the usual"],
  "text that is a formula": ["looks like a formula"],
  "row cut short": ["cells missing", "no placed date"],
  "day and month swapped": [
    "removed before placed",
    "placed in the future",
    "lines overlap",
    "long stay",
    "event before placing",
    "day and month",
  ],
  "digit of the patient number mistyped": ["lines overlap", "no patient", "near number"],
  "a clot named only in the reason": ["event only in the reason"],
  "an infection named only in the reason": ["event only in the reason"],
  "3 lumens in 3 Fr": ["size against lumens"],
  "vein of 6 to 9 mm in the other unit": ["outside the usual"],
  "digit of the patient number mistyped, age for the birth date": ["lines overlap", "no patient", "near number"],
  "size off by one French": ["outside the usual", "size against kind", "ratio against size"],
};

interface Line {
  patient: string;
  born: CivilDate;
  placed: CivilDate;
  removed: CivilDate | undefined;
  arm: "left arm" | "right arm";
  vein: string;
  veinArm: string;
  fr: string;
  lumens: string;
  veinMm: number;
  attempts: string;
  ward: string;
  clot: CivilDate | undefined;
  infection: CivilDate | undefined;
  reason: string;
  note: string;
  rawPlaced?: string;
  cutShort?: true;
  oddity?: string;
}

interface House {
  readonly number: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly date: "day first" | "month first" | "iso" | "named" | "day first, two digits" | "serial";
  readonly cut: string;
  readonly encoding: "UTF-8" | "UTF-8 with mark" | "UTF-16" | "Windows-1252" | "XLSX" | "XLSX 1904";
  readonly veinUnit: "mm" | "cm";
  readonly title: boolean;
  /** The person's age stands where others write the birth date. */
  readonly ages: boolean;
}

export interface Made {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly house: House;
  readonly fieldOfHeader: ReadonlyMap<string, FieldName | "left out">;
  readonly seeded: readonly { readonly kind: string; readonly rows: readonly number[] }[];
  readonly odd: readonly { readonly kind: string; readonly row: number }[];
  readonly rows: number;
}

const HEADERS: readonly Readonly<Record<string, string>>[] = [
  {
    patient: "MRN",
    birthDate: "DOB",
    placedOn: "Date placed",
    removedOn: "Date removed",
    side: "Arm",
    vein: "Vein",
    sizeFr: "Fr",
    lumens: "Lumens",
    veinDiameterMm: "Vein diameter",
    attempts: "Attempts",
    ward: "Ward",
    thrombosisOn: "DVT date",
    infectionOn: "Infection date",
    removalReason: "Reason removed",
    note: "Comments",
  },
  {
    patient: "Hosp. No.",
    birthDate: "Date of birth",
    placedOn: "Inserted",
    removedOn: "Line out",
    side: "R/L",
    vein: "Vessel",
    sizeFr: "Catheter size (Fr)",
    lumens: "No. of lumens",
    veinDiameterMm: "Vein size",
    attempts: "Punctures",
    ward: "Unit",
    thrombosisOn: "Clot date",
    infectionOn: "CRBSI date",
    removalReason: "Why out",
    note: "Notes",
  },
  {
    patient: "Numéro patient",
    birthDate: "Date de naissance",
    placedOn: "Date de pose",
    removedOn: "Date de retrait",
    side: "Côté",
    vein: "Veine",
    sizeFr: "Taille (Fr)",
    lumens: "Lumens",
    veinDiameterMm: "Diamètre",
    attempts: "Tentatives",
    ward: "Service",
    thrombosisOn: "Thrombosis date",
    infectionOn: "Date of infection",
    removalReason: "Motif",
    note: "Remarques",
  },
  {
    patient: "Patient ID",
    birthDate: "Birth date",
    placedOn: "Placement date",
    removedOn: "End date",
    side: "Laterality",
    vein: "Vein used",
    sizeFr: "French",
    lumens: "Lumen",
    veinDiameterMm: "Vein width",
    attempts: "Tries",
    ward: "Location",
    thrombosisOn: "Date of thrombosis",
    infectionOn: "BSI date",
    removalReason: "Removal reason",
    note: "Free text",
  },
];

function headersOf(number: number, swapped: boolean): Readonly<Record<string, string>> {
  const { birthDate, placedOn, removedOn, ...own } = HEADERS[number % 4] as Readonly<Record<string, string>>;
  return {
    patient: own["patient"] as string,
    ...(number % 7 === 3 ? { ageYears: "Age" } : { birthDate: birthDate as string }),
    placedOn: (swapped ? removedOn : placedOn) as string,
    removedOn: (swapped ? placedOn : removedOn) as string,
    ...own,
  };
}
const DATES = ["day first", "month first", "iso", "named", "day first, two digits", "serial"] as const;
const CUTS = [",", ";", "\t"];
const ENCODINGS = ["UTF-8", "UTF-8 with mark", "UTF-16", "Windows-1252", "XLSX", "XLSX 1904"] as const;
/** Ends that name no event of their own column, a suspicion among them. */
const ENDS = ["treatment complete", "no longer needed", "fell out", "end of treatment", "?infection", "died"];
const YEAR_END = "2025-12-31" as CivilDate;

/** Park and Miller 1988, minimal standard generator (from memory); a fixed seed gives a fixed file. */
function dice(seed: number): (sides: number) => number {
  let state = seed * 7919 + 1;
  return (sides) => {
    state = (state * 48_271) % 2_147_483_647;
    return Math.floor((state / 2_147_483_647) * sides);
  };
}

/** One year of one house; `swapped` writes the dates of placing and of removal under each other's header. */
export function makeYear(number: number, { swapped = false }: { readonly swapped?: boolean } = {}): Made {
  const roll = dice(number + 1);
  const house: House = {
    number,
    headers: headersOf(number, swapped),
    date: DATES[number % 6] as House["date"],
    cut: CUTS[number % 3] as string,
    encoding: ENCODINGS[(number * 5 + Math.floor(number / 6)) % 6] as House["encoding"],
    veinUnit: number % 5 === 3 ? "cm" : "mm",
    title: number % 4 === 2,
    ages: number % 7 === 3,
  };
  const lines: Line[] = [];
  for (let day = 0; day < 360; day += 1 + roll(4)) {
    const placed = addDays("2025-01-01" as CivilDate, day);
    const stay = roll(12) === 0 ? undefined : roll(60);
    const removed =
      stay === undefined || dayNumber(placed) + stay > dayNumber(YEAR_END) ? undefined : addDays(placed, stay);
    const arm = roll(3) === 0 ? "left arm" : "right arm";
    lines.push({
      patient: String(400_000 + lines.length * 37 + roll(30)),
      born: addDays(placed, -(365 * (1 + roll(90)) + roll(300))),
      placed,
      removed,
      arm,
      vein: ["basilic", "brachial", "cephalic"][roll(3)] as string,
      veinArm: number % 2 === 0 ? "" : arm === "left arm" ? "left " : "right ",
      fr: String(3 + roll(3)),
      lumens: String(1 + roll(2)),
      veinMm: 2.6 + roll(30) / 10,
      attempts: String(1 + roll(3)),
      ward: ["Ash", "Birch", "Chêne", "Linde"][roll(4)] as string,
      clot: removed && roll(15) === 0 ? addDays(placed, roll(dayNumber(removed) - dayNumber(placed) + 1)) : undefined,
      infection: undefined,
      reason: removed === undefined ? "" : (ENDS[lines.length % ENDS.length] as string),
      note: ["", "", "", "second look", "l'équipe de nuit", 'said "fine"'][roll(6)] as string,
    });
  }
  const odd = (at: number, kind: string, change: Partial<Line>) =>
    Object.assign(lines[at] as Line, { oddity: kind, ...change });
  const placedAt = (at: number) => (lines[at] as Line).placed;
  odd(2, "a patient of 103 years", { born: addDays(placedAt(2), -Math.round(103.4 * 365.25)) });
  odd(4, "a newborn's line of 1.9 Fr", { born: addDays(placedAt(4), -3), fr: "1.9" });
  odd(6, "a line taken out the same day", { removed: placedAt(6), clot: undefined });
  odd(8, "a note that begins with a dash", { note: "- see the book" });
  odd(10, "a second line in the other arm, meant", {
    patient: (lines[9] as Line).patient,
    born: (lines[9] as Line).born,
    placed: placedAt(9),
    arm: (lines[9] as Line).arm === "left arm" ? "right arm" : "left arm",
    veinArm: "",
    clot: undefined,
    removed: addDays(placedAt(9), 9),
  });
  odd(9, "a second line in the other arm, meant", { removed: addDays(placedAt(9), 20), clot: undefined });
  odd(12, "an exchange on one day", { removed: placedAt(13), clot: undefined });
  odd(13, "an exchange on one day", {
    patient: (lines[12] as Line).patient,
    born: (lines[12] as Line).born,
  });
  odd(14, "a clot seen the day after removal", { removed: addDays(placedAt(14), 5), clot: addDays(placedAt(14), 6) });
  odd(16, "a phone number as a note", { note: "+41 22 000 00 00" });

  odd(17, "a clot as the reason, and its date", {
    removed: addDays(placedAt(17), 9),
    clot: addDays(placedAt(17), 8),
    reason: "DVT",
  });
  odd(18, "an infection as the reason, and its date", {
    removed: addDays(placedAt(18), 9),
    infection: addDays(placedAt(18), 9),
    reason: "infection",
  });
  odd(19, "3 lumens in 4 Fr, and 2 in 1.9 Fr", { fr: "4", lumens: "3" });
  odd(15, "3 lumens in 4 Fr, and 2 in 1.9 Fr", { born: addDays(placedAt(15), -9), fr: "1.9", lumens: "2" });
  odd(5, "a newborn's vein of 0.8 mm and a line of 1 Fr", {
    born: addDays(placedAt(5), -2),
    fr: "1",
    lumens: "1",
    veinMm: 0.8,
  });
  odd(7, "a wide vein of 8.2 mm", { veinMm: 8.2 });

  const seeds: { kind: string; at: readonly Line[] }[] = [];
  let next = 20;
  const seed = (kind: string, change: (line: Line) => void) => {
    const line = lines[next] as Line;
    next += 3;
    change(line);
    seeds.push({ kind, at: [line] });
  };
  const other = (kind: string, make: (line: Line) => Line) => {
    const line = lines[next] as Line;
    next += 3;
    const second = make(line);
    lines.splice(next - 1, 0, second);
    next += 1;
    seeds.push({ kind, at: [line, second] });
  };
  seed("removed before placed", (line) => (line.removed = addDays(line.placed, -1 - roll(20))));
  seed("placed in the future", (line) => {
    line.placed = addDays(line.placed, 365 * 2);
    line.removed = undefined;
    line.clot = undefined;
  });
  seed(
    "age impossible",
    (line) => (line.born = roll(2) === 0 ? addDays(line.placed, 40) : addDays(line.born, -365 * 120)),
  );
  seed("gauge written for French", (line) => (line.fr = String(18 + 2 * roll(3))));
  seed("arm contradicts the vein", (line) => (line.veinArm = line.arm === "left arm" ? "right " : "left "));
  seed("event long after removal", (line) => {
    line.removed = addDays(line.placed, 10);
    line.clot = addDays(line.placed, 30 + roll(20));
  });
  other("row entered twice", (line) => ({ ...line }));
  other("two lines overlap, same arm", (line) => {
    line.removed = addDays(line.placed, 20);
    return { ...line, placed: addDays(line.placed, 4), removed: addDays(line.placed, 30), clot: undefined };
  });
  seed("day that does not exist", (line) => (line.rawPlaced = "no such day"));
  seed("number in words", (line) => (line.attempts = "two"));
  seed("no patient number", (line) => (line.patient = ""));
  seed(
    "vein in the other unit",
    (line) => (line.veinMm = house.veinUnit === "mm" ? line.veinMm / 10 : line.veinMm * 10),
  );
  seed("text that is a formula", (line) => (line.note = '=HYPERLINK("http://example.invalid","open")'));
  seed("row cut short", (line) => (line.cutShort = true));
  // a day above 12 cannot be taken for a month, and one like its month swaps to itself
  const swaps = ({ placed }: Line) => Number(placed.slice(8)) <= 12 && placed.slice(8) !== placed.slice(5, 7);
  while (!swaps(lines[next] as Line)) next += 1;
  seed("day and month swapped", (line) => {
    const [year, month, day] = line.placed.split("-") as [string, string, string];
    line.placed = `${year}-${day}-${month}` as CivilDate;
  });
  other(`digit of the patient number mistyped${house.ages ? ", age for the birth date" : ""}`, (line) => {
    line.removed = addDays(line.placed, 20);
    return {
      ...line,
      patient: `${line.patient.slice(0, -1)}${(Number(line.patient.at(-1)) + 1) % 10}`,
      placed: addDays(line.placed, 4),
      removed: addDays(line.placed, 30),
      clot: undefined,
    };
  });
  seed("size off by one French", (line) => (line.fr = String(Number(line.fr) + 1)));
  for (const [kind, reason] of [
    ["a clot named only in the reason", "DVT"],
    ["an infection named only in the reason", "line sepsis"],
  ] as const)
    seed(kind, (line) => {
      Object.assign(line, { removed: addDays(line.placed, 12), clot: undefined, reason });
    });
  seed("3 lumens in 3 Fr", (line) => Object.assign(line, { fr: "3", lumens: "3" }));
  seed("vein of 6 to 9 mm in the other unit", (line) => {
    const wide = 6 + roll(30) / 10;
    line.fr = String(4 + roll(3));
    line.veinMm = house.veinUnit === "mm" ? wide / 10 : wide * 10;
  });

  // who has a second line did not die with the first: no fault of that kind is put in
  for (const line of lines)
    if (line.reason === "died" && lines.some((other) => other !== line && other.patient === line.patient))
      line.reason = "treatment complete";

  const first = house.title ? 4 : 2;
  const rowOf = (line: Line) => lines.indexOf(line) + first;
  const fields = Object.keys(house.headers);
  const table: (string | number)[][] = [
    ...(house.title ? [["Lines of the year", ...fields.slice(1).map(() => "")], fields.map(() => "")] : []),
    fields.map((field) => house.headers[field] as string),
    ...lines.map((line) => rowText(line, house)),
  ];
  return {
    name: `house ${number + 1}`,
    bytes: bytesOfTable(table, house),
    house,
    fieldOfHeader: new Map(
      fields.map((field) => [house.headers[field] as string, field === "note" ? "left out" : (field as FieldName)]),
    ),
    seeded: seeds.map(({ kind, at }) => ({ kind, rows: at.map(rowOf) })),
    odd: lines.flatMap((line) => (line.oddity ? [{ kind: line.oddity, row: rowOf(line) }] : [])),
    rows: lines.length,
  };
}

function rowText(line: Line, house: House): (string | number)[] {
  const date = (day: CivilDate | undefined) => (day ? writtenDate(day, house) : "");
  const vein = house.veinUnit === "mm" ? line.veinMm : line.veinMm / 10;
  const impossible = {
    "day first": "31/02/2025",
    "month first": "02/31/2025",
    iso: "2025-02-31",
    named: "31 Feb 2025",
    "day first, two digits": "31/02/25",
    serial: "31/02/2025",
  }[house.date];
  const side = { "left arm": ["L", "left", "gauche", "LEFT"], "right arm": ["R", "right", "droite", "RIGHT"] }[
    line.arm
  ];
  const cells = [
    line.patient,
    house.ages ? String(Math.floor((dayNumber(line.placed) - dayNumber(line.born)) / 365.25)) : date(line.born),
    line.rawPlaced ? impossible : date(line.placed),
    date(line.removed),
    side[house.number % 4] as string,
    `${line.veinArm}${line.vein}`,
    line.fr,
    line.lumens,
    house.cut === ";" ? vein.toFixed(2).replace(".", ",") : vein.toFixed(2),
    line.attempts,
    line.ward,
    date(line.clot),
    date(line.infection),
    line.reason,
    line.note,
  ];
  return line.cutShort ? cells.slice(0, 2) : cells;
}

function writtenDate(day: CivilDate, house: House): string | number {
  const [year, month, date] = day.split("-") as [string, string, string];
  const short = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"][
    Number(month) - 1
  ] as string;
  if (house.date === "iso") return day;
  if (house.date === "named") return `${Number(date)} ${short} ${year}`;
  if (house.date === "month first") return `${month}/${date}/${year}`;
  if (house.date === "day first, two digits") return `${date}.${month}.${year.slice(2)}`;
  if (house.date === "serial")
    return dayNumber(day) - dayNumber((house.encoding === "XLSX 1904" ? "1904-01-01" : "1899-12-30") as CivilDate);
  return `${date}/${month}/${year}`;
}

function bytesOfTable(table: readonly (readonly (string | number)[])[], house: House): Uint8Array {
  if (house.encoding.startsWith("XLSX")) {
    const sheet = utils.aoa_to_sheet(table.map((row) => [...row]));
    const book = utils.book_new(sheet, "Lines");
    book.Workbook = { WBProps: { date1904: house.encoding === "XLSX 1904" } };
    return new Uint8Array(write(book, { type: "array", bookType: "xlsx", compression: true }) as ArrayBuffer);
  }
  const quoted = (cell: string) =>
    /["\n]/.test(cell) || cell.includes(house.cut) ? `"${cell.replaceAll('"', '""')}"` : cell;
  const text = `${table.map((row) => row.map((cell) => quoted(String(cell))).join(house.cut)).join("\r\n")}\r\n`;
  if (house.encoding === "UTF-16") return new Uint8Array(Buffer.from(`\uFEFF${text}`, "utf16le"));
  if (house.encoding === "Windows-1252") return new Uint8Array(Buffer.from(text, "latin1"));
  return new Uint8Array(Buffer.from(house.encoding === "UTF-8" ? text : `\uFEFF${text}`, "utf8"));
}

/** A person's answers to the questions that the values leave open: what this house truly writes. */
export const answersOf = ({ house }: Made) => ({
  order: house.date === "month first" ? ("month first" as const) : ("day first" as const),
  serialSystem: house.encoding === "XLSX 1904" ? (1904 as const) : (1900 as const),
  unit: { sizeFr: "Fr", veinDiameterMm: house.veinUnit, insideCm: "cm" } as const,
});
