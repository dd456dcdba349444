import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readCase } from "../../src/contract/index.ts";
import { bedsidePlan } from "../../src/core/line-plan/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../src/policy/index.ts";
import { demoShelf, practicePatients } from "../../src/practice/index.ts";
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
      expect(call(["plan", file]).output).toContain(`${expected.answer.chosen?.veinEntryCm.toFixed(1)}\u2009cm`);
    }
  });

  test("reads standing input, lists practice patients and prints the schema", () => {
    const listed = call(["practice"]);
    expect(listed.exit).toBe(0);
    expect(listed.output.trim().split("\n")).toHaveLength(practicePatients.length);
    const printed = call(["practice", "coin-flip"]).output;
    expect(call(["plan", "-"], printed).exit).toBe(2);
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
