/**
 * A second maker of faulty spreadsheets, built the other way round from spreadsheet-year.ts and before the checks it tries
 * were read: a ward's year is lived first (calls, weekdays, returning people, late typing), written down without a fault,
 * and then single finished cells are mistyped as hands mistype them. Every sheet exists twice, with its slips and without,
 * so that what is found is what the slip itself brought up, whatever code or words the reader chose for it.
 */
import { addDays, dayNumber, type CivilDate } from "../../src/core/calendar/index.ts";

type Column =
  | "patient"
  | "initials"
  | "birthDate"
  | "placedOn"
  | "removedOn"
  | "side"
  | "vein"
  | "catheter"
  | "sizeFr"
  | "veinDiameterMm"
  | "ratioPercent"
  | "ward"
  | "thrombosisOn";

const HEADER: Readonly<Record<Column, string>> = {
  patient: "Hospital number",
  initials: "Initials",
  birthDate: "DOB",
  placedOn: "Date in",
  removedOn: "Date out",
  side: "Side",
  vein: "Vein",
  catheter: "Catheter type",
  sizeFr: "Size (Fr)",
  veinDiameterMm: "Vein diameter (mm)",
  ratioPercent: "Ratio %",
  ward: "Ward",
  thrombosisOn: "Thrombosis date",
};

type Row = Record<Column, string>;
interface Person {
  readonly number: string;
  readonly initials: string;
  readonly born: CivilDate;
}

export interface Slip {
  readonly kind: string;
  /** As the file counts them, the header being row 1; either of them may be asked about. */
  readonly rows: readonly number[];
  readonly columns: readonly string[];
}

export interface SlipSheet {
  readonly name: string;
  readonly slipped: Uint8Array;
  readonly faultless: Uint8Array;
  readonly fieldOfHeader: ReadonlyMap<string, string>;
  readonly slips: readonly Slip[];
  readonly rows: number;
  readonly dayFirst: boolean;
}

/** Marsaglia 2003, xorshift with 13, 17, 5 (from memory). */
function chance(seed: number): () => number {
  let state = (seed * 2_654_435_761) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 4_294_967_296;
  };
}

/** A tenth digit after nine, weights ten down to two, modulus eleven; none where it would be ten. */
function withCheckDigit(nine: string): string | undefined {
  const sum = Array.from(nine).reduce((total, digit, at) => total + Number(digit) * (10 - at), 0);
  const check = (11 - (sum % 11)) % 11;
  return check === 10 ? undefined : `${nine}${check}`;
}

const KINDS = [
  { code: "A1", sizes: ["4"] },
  { code: "A2", sizes: ["5"] },
  { code: "N", sizes: ["2", "3"] },
  // one name, many sizes, lawfully
  { code: "Family", sizes: ["4", "5", "6"] },
] as const;

/** The keys round a key of a number pad, calculator order. */
const BESIDE: Readonly<Record<string, string>> = {
  "0": "12",
  "1": "024",
  "2": "0135",
  "3": "26",
  "4": "157",
  "5": "2468",
  "6": "359",
  "7": "48",
  "8": "579",
  "9": "68",
};

export function slipYear(number: number): SlipSheet {
  const next = chance(number + 41);
  const below = (top: number) => Math.floor(next() * top);
  const pick = <Value>(values: readonly Value[]): Value => values[below(values.length)] as Value;
  const traits = {
    checkDigit: number % 3 === 1,
    initials: number % 2 === 0,
    ratio: number % 4 < 2,
    sorted: number % 5 !== 4,
    dayFirst: number % 7 !== 6,
  };
  const letters = "ABCDEFGHJKLMNPRSTW";
  let serial = 3_100_000 + below(50_000);
  const person = (): Person => {
    for (;;) {
      serial += 1 + (next() < 0.3 ? 0 : below(90));
      const made = traits.checkDigit ? withCheckDigit(`94${String(serial).padStart(7, "0")}`) : String(serial);
      if (made === undefined) continue;
      const born = addDays("1935-01-01" as CivilDate, below(30_000));
      return { number: made, initials: `${pick(Array.from(letters))}${pick(Array.from(letters))}`, born };
    }
  };
  const write = (day: CivilDate | undefined) => {
    if (day === undefined) return "";
    const [year, month, date] = day.split("-") as [string, string, string];
    return traits.dayFirst ? `${date}/${month}/${year}` : `${month}/${date}/${year}`;
  };

  // the year is lived
  const lived: { placed: CivilDate; typedOn: number; row: Row; who: Person }[] = [];
  const free: { who: Person; from: CivilDate }[] = [];
  const place = (who: Person, placed: CivilDate) => {
    const kind = pick(KINDS);
    const size = pick<string>(kind.sizes);
    const mm = (Number(size) / 3 / (0.25 + next() * 0.2)).toFixed(1);
    const out = addDays(placed, Math.floor(3 - 18 * Math.log(1 - next() * 0.98)));
    const removed = out > "2025-12-31" ? undefined : out;
    if (removed) free.push({ who, from: removed });
    const late = next() < 0.08 ? below(35) : below(2);
    const stay = dayNumber(removed ?? ("2025-12-31" as CivilDate)) - dayNumber(placed);
    const clot = next() < 0.03 ? addDays(placed, below(stay + 1)) : undefined;
    const row: Row = {
      patient: who.number,
      initials: who.initials,
      birthDate: write(who.born),
      placedOn: write(placed),
      removedOn: write(removed),
      side: next() < 0.7 ? "R" : "L",
      vein: next() < 0.8 ? "basilic" : "brachial",
      catheter: kind.code,
      sizeFr: size,
      veinDiameterMm: mm,
      ratioPercent: String(Math.round((Number(size) / 3 / Number(mm)) * 100)),
      ward: pick(["Elm", "Oak", "Rowan"]),
      thrombosisOn: write(clot),
    };
    lived.push({ placed, typedOn: dayNumber(placed) + late, row, who });
  };
  for (let day = "2025-01-02" as CivilDate; day < "2025-12-28"; day = addDays(day, 1)) {
    const weekday = (dayNumber(day) + 4) % 7;
    const calls = weekday === 0 || weekday === 6 ? (next() < 0.15 ? 1 : 0) : below(3);
    for (let call = 0; call < calls; call += 1) {
      const back = free.findIndex(({ from }) => from < day);
      const returning = next() < 0.2 && back >= 0 ? free.splice(back, 1)[0]?.who : undefined;
      const who = returning ?? person();
      place(who, day);
      // a twin, admitted the same week: the next number, the same birth date, another first letter
      if (!returning && !traits.checkDigit && next() < 0.02)
        place({ number: String(++serial), initials: `Y${who.initials.slice(1)}`, born: who.born }, addDays(day, 1));
    }
  }
  lived.sort((a, b) => (traits.sorted ? a.typedOn - b.typedOn : a.who.number < b.who.number ? -1 : 1));

  // the hand slips
  const columns = (Object.keys(HEADER) as Column[]).filter(
    (column) => (column !== "initials" || traits.initials) && (column !== "ratioPercent" || traits.ratio),
  );
  const rows = lived.map(({ row }) => ({ ...row }));
  const slips: Slip[] = [];
  const visits = (at: number) => lived.flatMap(({ who }, other) => (who === lived[at]?.who ? [other] : []));
  for (const at of rows.keys()) {
    if (next() > 0.09) continue;
    const row = rows[at] as Row;
    const before = { ...row };
    const slip = slipOf(row, visits(at).length > 1, traits.checkDigit, { below, pick });
    if (slip === undefined || columns.every((column) => before[column] === row[column])) {
      Object.assign(row, before);
      continue;
    }
    const order = /of the (placing|removal) swapped/.test(slip.kind)
      ? traits.sorted
        ? ", table in time order"
        : ", no order"
      : "";
    const seen =
      slip.kind.includes("ratio") || slip.kind.includes("size") ? (traits.ratio ? ", ratio written" : "") : "";
    slips.push({
      kind: `${slip.kind}${order}${seen}`,
      rows: (slip.kind.includes("number") || slip.kind.includes("birth") ? visits(at) : [at]).map((one) => one + 2),
      columns: slip.columns.map((column) => HEADER[column]),
    });
  }
  const bytes = (some: readonly Row[]) =>
    new TextEncoder().encode(
      [columns.map((column) => HEADER[column]), ...some.map((row) => columns.map((column) => row[column]))]
        .map((cells) => `${cells.join(",")}\n`)
        .join(""),
    );
  return {
    name: `ward ${number + 1}`,
    slipped: bytes(rows),
    faultless: bytes(lived.map(({ row }) => row)),
    fieldOfHeader: new Map(columns.map((column) => [HEADER[column], column])),
    slips,
    rows: rows.length,
    dayFirst: traits.dayFirst,
  };
}

/** One slip of one hand in one row, of a kind that the row allows. */
function slipOf(
  row: Row,
  returning: boolean,
  checkDigit: boolean,
  { below, pick }: { below: (top: number) => number; pick: <Value>(values: readonly Value[]) => Value },
): { readonly kind: string; readonly columns: readonly Column[] } | undefined {
  const swapped = (text: string) => {
    const [one = "", two = "", year = ""] = text.split("/");
    return Number(one) <= 12 && Number(two) <= 12 ? `${two}/${one}/${year}` : text;
  };
  const last = {
    kind: returning ? "of a person seen twice" : checkDigit ? "with a check digit" : "of a person seen once",
  };
  const at = 3 + below(row.patient.length - 3);
  switch (
    pick(["swap", "swap", "swap out", "key", "key", "turn", "size", "ratio", "point", "born", "century", "year"])
  ) {
    case "swap":
      row.placedOn = swapped(row.placedOn);
      return { kind: "day and month of the placing swapped", columns: ["placedOn", "removedOn", "thrombosisOn"] };
    case "swap out":
      row.removedOn = swapped(row.removedOn);
      return { kind: "day and month of the removal swapped", columns: ["placedOn", "removedOn", "thrombosisOn"] };
    case "key":
      row.patient = `${row.patient.slice(0, at)}${pick(Array.from(BESIDE[row.patient[at] ?? ""] ?? "0"))}${row.patient.slice(at + 1)}`;
      return { kind: `a key beside the right one in the number ${last.kind}`, columns: ["patient"] };
    case "turn":
      row.patient = `${row.patient.slice(0, at - 1)}${row.patient[at]}${row.patient[at - 1]}${row.patient.slice(at + 1)}`;
      return { kind: `two digits turned in the number ${last.kind}`, columns: ["patient"] };
    case "size":
      row.sizeFr = String(Number(row.sizeFr) + (below(2) === 0 ? 1 : -1));
      return {
        kind: `size one French off, ${row.catheter === "Family" ? "a kind of many sizes" : "a kind of few sizes"}`,
        columns: ["sizeFr", "catheter", "ratioPercent", "veinDiameterMm"],
      };
    case "ratio":
      row.ratioPercent = Array.from(row.ratioPercent).reverse().join("");
      return { kind: "digits of the ratio turned", columns: ["ratioPercent", "sizeFr", "veinDiameterMm"] };
    case "point":
      row.veinDiameterMm = row.veinDiameterMm.replace(".", "");
      return { kind: "decimal point of the vein lost", columns: ["veinDiameterMm", "ratioPercent", "sizeFr"] };
    case "born":
      row.birthDate = swapped(row.birthDate);
      return { kind: `day and month of birth swapped, ${last.kind}`, columns: ["birthDate", "patient"] };
    case "century":
      row.birthDate = row.birthDate.replace(/\d{4}$/, (year) => String(Number(year) - 100));
      return { kind: "birth a century early", columns: ["birthDate"] };
    default:
      row.placedOn = row.placedOn.replace(/\d{4}$/, "2024");
      return { kind: "last year's number in the placing", columns: ["placedOn", "removedOn"] };
  }
}
