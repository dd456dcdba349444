import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { readCase } from "../../src/contract/index.ts";
import { parseCivilDate, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { bedsidePlan } from "../../src/core/line-plan/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../src/policy/index.ts";
import { demoShelf, practiceCharts, practicePatients, practiceReferrals } from "../../src/practice/index.ts";
import { app } from "../../src/server/app.ts";

const folder = mkdtempSync(join(tmpdir(), "veinwright-"));
const call = (args: string[], input = "") => {
  const { status, stdout } = spawnSync("npx", ["--no", "veinwright", ...args], { input, encoding: "utf8" });
  return { exit: status, output: stdout };
};

describe("the command line", () => {
  test("plans the same numbers as the library, as text and as JSON", () => {
    for (const id of ["plain", "two-tapes"]) {
      const patient = practicePatients.find((one) => one.id === id);
      const reading = readCase(patient?.planCase, demoShelf);
      if (reading.kind === "faults") throw new Error("faults");
      const expected = bedsidePlan(reading.input, planPolicyFrom(defaultPolicy.table));
      const file = join(folder, `${id}.json`);
      writeFileSync(file, JSON.stringify(patient?.planCase));
      const json = call(["plan", file, "--json"]);
      expect(json.exit).toBe(expected.standing);
      expect(JSON.parse(json.output).answer.chosen.skinExitCm).toBe(expected.answer.chosen?.skinExitCm);
      expect(call(["plan", file]).output).toContain(`${expected.answer.chosen?.veinEntryCm.toFixed(1)}\u202fcm`);
    }
  });

  test("reads standing input, lists practice patients and prints the schema", () => {
    const listed = call(["practice"]);
    expect(listed.exit).toBe(0);
    expect(listed.output.trim().split("\n")).toHaveLength(
      practicePatients.length + practiceReferrals.length + practiceCharts.length + 1,
    );
    const printed = call(["practice", "coin-flip"]).output;
    expect(call(["plan", "-"], printed).exit).toBe(2);
    const record = call(["practice", "record"]).output;
    expect(call(["case", "-"], record).output).toContain("This file holds 12 lines.");
    expect(call(["card", "-", "--line", "practice-rowan"], record)).toMatchObject({ exit: 0 });
    expect(JSON.parse(call(["schema", "plan"]).output).properties.patient).toBeDefined();
  });

  test("bad usage is 64, bad data is 65, and both say what to do", () => {
    expect(call(["dance"])).toMatchObject({ exit: 64 });
    expect(call(["plan", "nowhere.json"])).toMatchObject({ exit: 65 });
    const bad = call(["plan", "-"], '{"patient": {"weightKg": "1.234,5"}, "need": {}, "arms": {}}');
    expect(bad.exit).toBe(65);
    expect(bad.output).toContain("decimal comma or point");
  });
});

describe("rough handling", () => {
  test("a PDF that cannot be written leaves the answer and a sentence, exit 65", () => {
    const file = join(folder, "rough.json");
    writeFileSync(file, JSON.stringify(practicePatients[0]?.planCase));
    const answer = call(["plan", file, "--pdf", "/no/such/folder/plan.pdf"]);
    expect(answer.exit).toBe(65);
    expect(answer.output).toContain("Mark the skin");
    expect(answer.output).toContain("Could not write the PDF");
    expect(call(["plan", file, "--pdf", "--json"]).exit).toBe(64);
    expect(call(["schema", "constructor"]).exit).toBe(64);
  });

  test("hundreds of readings are answered in seconds", () => {
    const stations = Array.from({ length: 60 }, (_, index) => ({
      atCm: index * 0.3,
      diameterMm: 4,
      depthMm: 10,
      artery: "none",
      nerveBeside: false,
      compressible: true,
      thrombus: false,
      tourniquetOn: false,
    }));
    const surveys = ["basilic", "brachial", "cephalic"].map((vein) => ({ vein, stations }));
    const large = {
      ...structuredClone(practicePatients[0]?.planCase),
      arms: { right: { armLengthCm: 20, bars: [], surveys }, left: { armLengthCm: 20, bars: [], surveys } },
    };
    const since = performance.now();
    expect(call(["plan", "-"], JSON.stringify(large)).output).toContain("Mark the skin");
    // not a benchmark: this file once took a minute, and a person would have given up
    expect(performance.now() - since).toBeLessThan(20_000);
  });
});

describe("the server", () => {
  test("answers a case with the library's numbers and faults without the values typed", async () => {
    const server = app("dist/web");
    const planned = await server.request("/api/plan", {
      method: "POST",
      body: JSON.stringify(practicePatients[0]?.planCase),
    });
    expect(planned.status).toBe(200);
    expect(((await planned.json()) as { answer: { outcome: string } }).answer.outcome).toBe("planned");
    const faulty = await server.request("/api/plan", {
      method: "POST",
      body: '{"patient": {"name": 7, "secret": "x"}, "need": {}, "arms": {}}',
    });
    expect(faulty.status).toBe(422);
    expect(await faulty.text()).not.toContain('"found"');
  });

  test("says it is well, serves the page, and leaves its folder for nobody", async () => {
    const server = app("dist/web");
    expect(await (await server.request("/api/health")).json()).toMatchObject({ passed: true });
    expect((await server.request("/")).headers.get("content-security-policy")).toContain("default-src 'self'");
    expect((await server.request("/../../package.json")).status).toBe(404);
    expect((await server.request("/%2e%2e/%2e%2e/package.json")).status).toBe(404);
    expect((await server.request("/%E0%A4%A")).status).toBe(404);
    const deep = `{"patient":${'{"a":'.repeat(20_000)}1${"}".repeat(20_000)}}`;
    expect((await server.request("/api/plan", { method: "POST", body: deep })).status).toBe(422);
    expect((await server.request("/api/plan", { method: "POST", body: "x".repeat(1_000_001) })).status).toBe(413);
  });
});

describe("device and kidney", () => {
  const need = (id: string) => JSON.stringify(practiceReferrals.find((one) => one.id === id)?.referral);
  const files = (texts: Readonly<Record<string, string>>) => ({
    read: (name: string) => {
      const text = texts[name];
      if (text === undefined) throw new Error("no such file");
      return text;
    },
    write: () => undefined,
    now: () => "25 Nov 2026, 12:00",
    moment: () => "2026-11-26T11:02+00:00" as Instant,
    today: () => parseCivilDate("2026-11-25") as CivilDate,
  });
  const run = (words: readonly string[], texts: Readonly<Record<string, string>>) =>
    runCommandLine(words, files(texts));

  test("says not a PICC, because, with the lines for the ward, exit 0", async () => {
    const { exit, output } = await run(["device", "need.json"], { "need.json": need("four-days") });
    expect(exit).toBe(0);
    expect(output).toContain("Not a PICC: a short cannula.");
    expect(output).toContain("For the ward:");
  });

  test("an open question is 2, and JSON holds what text says", async () => {
    const { exit, output } = await run(["device", "need.json", "--json"], { "need.json": need("first-call") });
    expect(exit).toBe(2);
    expect(JSON.parse(output)).toMatchObject({
      device: { outcome: "not excluded", stillToAsk: ["pregnancy", "armBars"] },
    });
  });

  test("the hospital's own drug list stands before the starter list; a faulty one is refused whole", async () => {
    const texts = { "need.json": need("four-days"), "list.csv": "name,osmolarity,class\nceftriaxone,1200,neither" };
    const { output } = await run(["device", "need.json", "--infusates", "list.csv"], texts);
    expect(output).toContain("above the 900 set here");
    const bad = { ...texts, "list.csv": "name,class\nceftriaxone,mild\n,neither" };
    const refused = await run(["device", "need.json", "--infusates", "list.csv"], bad);
    expect(refused).toMatchObject({ exit: 65 });
    expect(refused.output).toContain("2 faults in the need or its drug list");
  });

  test("the kidney is barred on dialysis, with the note to hang up, exit 3", async () => {
    const { exit, output } = await run(["kidney", "need.json"], { "need.json": need("on-dialysis") });
    expect(exit).toBe(3);
    expect(output).toContain("KEEP BOTH ARMS");
  });

  test("ten faults in a need are ten faults", async () => {
    const bad = {
      patient: { age: { value: -1, unit: "years" }, sex: "x", heightCm: 900 },
      days: { least: 9, likely: "1.234", most: 5 },
      infusates: [7],
      kidney: { replacement: "maybe", filtration: 400, creatinines: [{ value: 1, unit: "mmol", on: "x" }] },
      colour: "blue",
    };
    const { exit, output } = await run(["device", "n"], { n: JSON.stringify(bad) });
    expect(exit).toBe(65);
    expect(Number(output.split(" ")[0])).toBeGreaterThanOrEqual(10);
  });
});

describe("flow, lumen-flow and mixing", () => {
  const run = (command: string, file: unknown, ...more: string[]) =>
    runCommandLine([command, "f", ...more], {
      read: () => JSON.stringify(file),
      write: () => undefined,
      now: () => "",
      moment: () => "2026-11-26T11:02+00:00" as Instant,
      today: () => parseCivilDate("2026-11-25") as CivilDate,
    });

  test("say the pair, the model and what it does not permit", async () => {
    expect((await run("flow", { diameterMm: 4, french: 4 })).output).toContain("27\u202f% in the middle, 57\u202f%");
    const lumen = { french: 5, lumens: 2, lengthCm: 45, fluid: "water", headCm: 100 };
    expect((await run("lumen-flow", lumen)).output).toContain("Model, teaching only.");
    const mixing = { osmolarity: 1700, rateMlPerHour: 100, bloodFlowMlPerMinute: 95 };
    expect((await run("mixing", mixing)).output).toContain("never permits peripheral use");
    expect(JSON.parse((await run("mixing", mixing, "--json")).output)).toHaveProperty("mixed.plasmaOnly");
  });

  test("a filled vein, both sizes at once, no drive and an unknown field are each named", async () => {
    expect((await run("flow", { diameterMm: 1, french: 4 })).output).toContain("diameterMm");
    const twice = await run("flow", { diameterMm: 4, french: 4, outsideDiameterMm: 1, colour: "x" });
    expect(twice).toMatchObject({ exit: 65 });
    expect(twice.output).toContain("2 faults");
    expect((await run("lumen-flow", { french: 5, lumens: 2, lengthCm: 45, fluid: "water" })).output).toContain(
      "headCm",
    );
  });
});
