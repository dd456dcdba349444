import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";

/*
 * What leaves the service, as a stranger reads it: the CSV and its Frictionless descriptor, checked by a reader written
 * here from the specification and from nothing of ours. Source: Frictionless Standards, Data Package 1.0 (profile, name,
 * path, bytes, hash), Tabular Data Resource 1.0 and Table Schema 1.0 (missingValues, primaryKey, types, constraints):
 * names and patterns as the profiles tabular-data-resource.json and table-schema.json have them; the rest from memory.
 */
const HEAD =
  "line_key,patient_key,placed_at,end_kind,end_at,end_reason,age_years,diagnosis,size_fr,lumens,ward,overrides,owned,events,overdue_care,written_after";

interface Made {
  readonly key: string;
  readonly patient: string;
  readonly placed: string;
  readonly out: string;
  readonly age: number;
  readonly diagnosis?: string;
  readonly size?: number;
  readonly more?: string;
  readonly events?: string;
  readonly overdue?: string;
  readonly after?: string;
}
const line = ({
  key,
  patient,
  placed,
  out,
  age,
  diagnosis = "infection",
  size = 4,
  more = "none",
  events = "none",
  overdue = "none",
  after = "none",
}: Made) =>
  [
    key,
    patient,
    placed,
    "removed",
    out,
    "treatment ended",
    age,
    diagnosis,
    size,
    1,
    "Ash",
    more,
    "yes",
    events,
    overdue,
    after,
  ].join(",");

/** Eight people of one kind in one month; then an old person with two lines, three alike, and four alike. */
const plain = Array.from({ length: 8 }, (_, at) =>
  line({ key: `L${at}`, patient: `P${at}`, placed: "2025-03-02", out: "2025-03-12", age: 50 }),
);
const people = (count: number, diagnosis: string): readonly string[] =>
  Array.from({ length: count }, (_, at) =>
    line({
      key: `${diagnosis}${at}`,
      patient: `${diagnosis} ${at}`,
      placed: "2025-04-05",
      out: "2025-04-09",
      age: 55,
      diagnosis,
    }),
  );
const rows = [
  ...plain,
  line({
    key: "old 1",
    patient: "old",
    placed: "2025-03-02",
    out: "2025-03-20",
    age: 104,
    events: "occlusion@2025-03-09",
  }),
  line({
    key: "old 2",
    patient: "old",
    placed: "2025-06-01T09:30+02:00",
    out: "2025-06-30T10:00+02:00",
    age: 104,
    events: "infection@2025-06-10T08:00+02:00 clinical=yes",
  }),
  line({ key: "edge", patient: "edge", placed: "2025-03-02", out: "2025-03-20", age: 89 }),
  ...people(3, "nutrition"),
  ...people(4, "kidney disease"),
  line({
    key: "odd",
    patient: "odd",
    placed: "2025-05-02",
    out: "2025-05-20",
    age: 61,
    more: "Dr Maurer said so;arm-barred",
    overdue: "ring Maurer 0664 1234567;dressing;owner place and date",
    after: "side;Maurer",
  }),
];
const folder = mkdtempSync(join(tmpdir(), "veinwright-export-"));
const file = join(folder, "own.csv");
writeFileSync(file, [HEAD, ...rows].join("\n"));

const run = (...more: readonly string[]) => {
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    ["--import", "tsx", "src/cli/main.ts", "export", file, "--as-of", "2026-01-01", ...more],
    { encoding: "buffer", maxBuffer: 1 << 26 },
  );
  expect(stderr.toString()).toBe("");
  return { bytes: stdout, status };
};
const { bytes } = run();
const { bytes: told, status } = run("--json");
interface Field {
  readonly name: string;
  readonly type: string;
  readonly description?: string;
  readonly trueValues?: readonly string[];
  readonly falseValues?: readonly string[];
  readonly constraints?: Readonly<Record<string, unknown>>;
  readonly houseCodes?: readonly string[];
}
const descriptor = JSON.parse(told.toString()) as {
  readonly profile: string;
  readonly name: string;
  readonly rows: number;
  readonly rare: readonly Readonly<Record<string, unknown>>[];
  readonly smallCells: readonly { readonly column: string; readonly value: string; readonly people: number }[];
  readonly warnings: readonly string[];
  readonly resources: readonly {
    readonly name: string;
    readonly profile: string;
    readonly path: string;
    readonly bytes: number;
    readonly hash: string;
    readonly encoding: string;
    readonly schema: {
      readonly fields: readonly Field[];
      readonly missingValues: readonly string[];
      readonly primaryKey: string;
    };
  }[];
};
const [resource] = descriptor.resources;
if (!resource) throw new Error("no resource");
const { data } = Papa.parse<Record<string, string>>(bytes.toString("utf8"), { header: true, skipEmptyLines: true });
const dayOf = (text: string): number => Date.parse(`${text.slice(0, 10)}T00:00Z`) / 86_400_000;

/** Table Schema 1.0: one cell against its field; the words that are wrong with it. */
function cellFaults(text: string, { name, type, trueValues, falseValues, constraints = {} }: Field): readonly string[] {
  const fault = (why: string) => `${name} "${text}": ${why}`;
  if (resource?.schema.missingValues.includes(text)) return constraints["required"] === true ? [fault("required")] : [];
  const faults: string[] = [];
  const number = Number(text);
  if (type === "number" && !/^[+-]?\d+(\.\d+)?([eE][+-]?\d+)?$/.test(text)) faults.push(fault("no number"));
  if (type === "integer" && !/^[+-]?\d+$/.test(text)) faults.push(fault("no integer"));
  if (type === "boolean" && ![...(trueValues ?? []), ...(falseValues ?? [])].includes(text))
    faults.push(fault("no boolean"));
  const options = constraints["enum"];
  if (Array.isArray(options) && !options.includes(text)) faults.push(fault("not in enum"));
  if (typeof constraints["minimum"] === "number" && number < constraints["minimum"])
    faults.push(fault("below minimum"));
  if (typeof constraints["maximum"] === "number" && number > constraints["maximum"])
    faults.push(fault("above maximum"));
  return faults;
}

describe("the descriptor, by the Frictionless specifications", () => {
  test("is a tabular data package with one named resource beside it", () => {
    expect(descriptor.profile).toBe("tabular-data-package");
    expect(resource.profile).toBe("tabular-data-resource");
    for (const name of [descriptor.name, resource.name]) expect(name).toMatch(/^([-a-z0-9._/])+$/);
    // a path is relative and climbs nowhere
    expect(resource.path).toMatch(/^[^/.][^:]*\.csv$/);
    expect(resource.encoding).toBe("utf-8");
  });

  test("its bytes and its checksum are those of the file the command writes, to the last sign", () => {
    expect(resource.bytes).toBe(bytes.length);
    expect(resource.hash).toBe(`sha256:${createHash("sha256").update(bytes).digest("hex")}`);
  });

  test("its schema names every column once, in the order of the file, with a known type and words", () => {
    const names = resource.schema.fields.map(({ name }) => name);
    expect(names).toEqual(bytes.toString("utf8").split("\r\n")[0]?.split(","));
    expect(new Set(names).size).toBe(names.length);
    for (const { type, description, constraints = {} } of resource.schema.fields) {
      expect(["string", "number", "integer", "boolean"]).toContain(type);
      expect(description?.length).toBeGreaterThan(2);
      for (const constraint of Object.keys(constraints))
        expect(["required", "enum", "minimum", "maximum"]).toContain(constraint);
    }
    expect([...resource.schema.missingValues].sort()).toEqual([
      "",
      "not asked",
      "not known",
      "not measured",
      "refused",
    ]);
    expect(names).toContain(resource.schema.primaryKey);
  });

  test("every cell of the file fits its field, and the primary key names each row once", () => {
    expect(data.length).toBe(descriptor.rows);
    expect(
      data.flatMap((row) => resource.schema.fields.flatMap((field) => cellFaults(row[field.name] ?? "", field))),
    ).toEqual([]);
    const keys = data.map((row) => row[resource.schema.primaryKey]);
    expect(new Set(keys).size).toBe(keys.length);
    // the reader above can say no
    expect(cellFaults("lots", { name: "lumens", type: "integer" })).toHaveLength(1);
  });

  test("the page of the reference prints the same schema", () => {
    // what a file adds of its own
    const fields = resource.schema.fields.map((field) =>
      Object.fromEntries(Object.entries(field).filter(([name]) => name !== "houseCodes")),
    );
    expect(JSON.parse(readFileSync("docs/reference/line-table-schema.json", "utf8"))).toEqual({
      ...resource.schema,
      fields,
    });
  });
});

describe("what leaves the service", () => {
  const before = Papa.parse<Record<string, string>>([HEAD, ...rows].join("\n"), { header: true }).data;

  // every dwell and every event's day from the placing tells which row is which without its key
  const mark = (row: Readonly<Record<string, string>>): string => {
    const placed = dayOf(row["placed_at"] ?? "");
    const event = /@(\d{4}-\d\d-\d\d)/.exec(row["events"] ?? "")?.[1];
    return [dayOf(row["end_at"] ?? "") - placed, event ? dayOf(event) - placed : "", row["diagnosis"]].join("|");
  };
  const shiftsOf = (wanted: string): readonly number[] => {
    const own = before.filter((row) => row["patient_key"] === wanted);
    return own.flatMap((row) => {
      const after = data.find((one) => mark(one) === mark(row));
      return after ? [dayOf(after["placed_at"] ?? "") - dayOf(row["placed_at"] ?? "")] : [];
    });
  };

  test("all dates of a person are moved back by one number, never nought and at most a year, hours as they were", () => {
    const shifts = shiftsOf("old");
    expect(shifts).toHaveLength(2);
    expect(new Set(shifts).size).toBe(1);
    expect(shifts[0]).toBeLessThan(0);
    expect(shifts[0]).toBeGreaterThanOrEqual(-364);
    const second = data.find((row) => row["events"]?.startsWith("infection"));
    expect(second?.["placed_at"]).toMatch(/T09:30/);
    expect(second?.["end_at"]).toMatch(/T10:00/);
  });

  test("two people are not moved by the same number because they are alike", () => {
    const moved = data.filter((row) => row["diagnosis"] === "infection" && mark(row).startsWith("10|"));
    expect(moved).toHaveLength(8);
    expect(new Set(moved.map((row) => row["placed_at"])).size).toBeGreaterThan(4);
  });

  // HIPAA Safe Harbor, 45 CFR 164.514(b)(2)(i)(C), from memory: ages over 89 as one group
  test("89 stays 89; every age above is one group", () => {
    const ages = data.map((row) => Number(row["age_years"]));
    expect(ages.filter((age) => age === 89)).toHaveLength(1);
    expect(ages.filter((age) => age === 90)).toHaveLength(2);
    expect(Math.max(...ages)).toBe(90);
  });

  test("no key, ward or word that was typed comes out, in the file or beside it", () => {
    for (const text of [bytes.toString(), told.toString()]) {
      expect(text).not.toMatch(/Maurer|0664|Ash\b|\bold\b|\bL\d\b|\bP\d\b|edge/);
      expect(text).not.toMatch(/2025-03-02T?|2025-06-01T09:30/);
    }
    const cells = (column: string) => data.map((row) => row[column] ?? "").join("\n");
    expect(cells("overrides")).toMatch(/^O-[0-9a-f]{12};arm-barred$/m);
    expect(cells("overdue_care")).toMatch(/^O-[0-9a-f]{12};dressing;O-[0-9a-f]{12}$/m);
    expect(cells("written_after")).toMatch(/^side;O-[0-9a-f]{12}$/m);
    // the dictionary lists the code, and not what it stands for
    const listed = resource.schema.fields.find(({ name }) => name === "overrides")?.houseCodes ?? [];
    expect(listed).toHaveLength(1);
    expect(cells("overrides")).toContain(listed[0]);
  });

  test("three alike in age band, diagnosis and month are warned about, four are not, and no true month is told", () => {
    const of = (diagnosis: string) => descriptor.rare.filter((group) => group["diagnosis"] === diagnosis);
    expect(of("nutrition")).toEqual([{ ageBand: "40 to 64", diagnosis: "nutrition", people: 3 }]);
    expect(of("kidney disease")).toEqual([]);
    expect(JSON.stringify([descriptor.rare, descriptor.warnings])).not.toMatch(/"month"|\d{4}-\d\d/);
    expect(descriptor.warnings.join(" ")).toContain("hold very few people");
    expect(status).toBe(2);
  });

  test("small cells are flagged: four people, and not five", () => {
    const flagged = descriptor.smallCells.filter(({ column }) => column === "diagnosis");
    expect(flagged).toEqual([
      { column: "diagnosis", value: "nutrition", people: 3 },
      { column: "diagnosis", value: "kidney disease", people: 4 },
    ]);
    expect(descriptor.smallCells.filter(({ column }) => column === "size_fr")).toEqual([]);
    expect(descriptor.warnings.join(" ")).toContain("diagnosis kidney disease");
  });

  test("the same file is disguised the same way, another one in another way", () => {
    expect(run().bytes.equals(bytes)).toBe(true);
    const other = join(folder, "other.csv");
    writeFileSync(
      other,
      [HEAD, ...rows, line({ key: "new", patient: "new", placed: "2025-02-02", out: "2025-02-03", age: 40 })].join(
        "\n",
      ),
    );
    const { stdout } = spawnSync(process.execPath, [
      "--import",
      "tsx",
      "src/cli/main.ts",
      "export",
      other,
      "--as-of",
      "2026-01-01",
    ]);
    const keys = new Set(data.map((row) => row["line_key"]));
    const again = Papa.parse<Record<string, string>>(stdout.toString(), { header: true, skipEmptyLines: true }).data;
    expect(again.some((row) => keys.has(row["line_key"] ?? ""))).toBe(false);
    expect(parseCivilDate(again[0]?.["placed_at"]?.slice(0, 10) ?? "") as CivilDate).toBeDefined();
  });
});
