import { describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { commandDesk, samplesOf } from "../command-desk.ts";

const sample = samplesOf("look-after-a-line");
const call = (words: string[], file: unknown = {}) => runCommandLine(words, commandDesk(JSON.stringify(file)));

describe("due, patency and culture", () => {
  test("due: each care with its date; a discharge without an owner is refused, the list before days off", async () => {
    const file = sample("due");
    const answer = await call(["due", "-"], file);
    expect(answer.exit).toBe(0);
    expect(answer.output).toContain("- Dressing: due Tue 12 Aug 2025.");
    expect(answer.output).toContain("- Lipid set: overdue by 1 h. It was due Fri 8 Aug 2025, 09:00.");
    const [line] = file["lines"] as object[];
    const leaving = { ...file, lines: [{ ...line, leaving: "discharge" }] };
    const stopped = await call(["due", "-"], leaving);
    expect(stopped.exit).toBe(3);
    expect(stopped.output).toContain("No discharge yet: when is the next care?");
    const blank = await call(["due", "-"], { ...file, lines: [{ name: "a", setting: "home" }] });
    expect(blank.exit).toBe(2);
    const list = await call(["due", "-", "--json"], { ...file, weekend: true, lines: [{ ...line, person: "" }] });
    expect(list.exit).toBe(2);
    expect(JSON.parse(list.output)).toMatchObject({ list: [{ lacks: ["person"], carriedOver: true }, {}] });
    const wednesday = await call(["due", "-"], { ...file, asOf: "2025-08-13T10:00+02:00", weekend: true });
    expect(wednesday).toMatchObject({ exit: 0 });
    expect(wednesday.output).toContain("Nothing is due on days off");
  });

  test("patency: one step, and what stands before lytic when it is asked for", async () => {
    const file = sample("patency");
    const answer = await call(["patency", "-"], file);
    expect(answer.exit).toBe(2);
    expect(answer.output).toContain("Look at the dressing.");
    expect(answer.output).toContain("This is a withdrawal occlusion.");
    const asked = await call(["patency", "-", "--json"], { ...file, wantsLytic: true });
    expect(asked.exit).toBe(3);
    expect(JSON.parse(asked.output)).toMatchObject({
      next: { step: "dressing" },
      refusals: [{ level: "stop" }, {}, {}, {}],
    });
    expect((await call(["patency", "-"], { ...file, mechanical: { clamp: "flows again" } })).exit).toBe(0);
  });

  test("culture: indeterminate with its reason and its differential; loaded together it is judged", async () => {
    const file = sample("culture");
    const answer = await call(["culture", "-"], file);
    expect(answer.exit).toBe(2);
    expect(answer.output).toContain("525 and 630 min from loading, 105 min apart");
    expect(answer.output).toContain("Not judged: loaded 210 min apart, more than 30.");
    const [line, arm] = file["bottles"] as object[];
    const together = { ...arm, loadedAt: "2025-06-03T10:20+02:00", flaggedAt: "2025-06-03T21:10+02:00" };
    const judged = await call(["culture", "-", "--json"], { ...file, bottles: [line, together] });
    expect(judged.exit).toBe(0);
    expect(JSON.parse(judged.output)).toMatchObject({ outcome: "criterion met", pairs: [{ differentialMin: 125 }] });
  });

  test("faults are all named, and each form has its schema", async () => {
    const faulty = await call(["due", "-"], { asOf: "yesterday", lines: [{ name: "a", setting: "ward", bed: 4 }] });
    expect(faulty.exit).toBe(65);
    expect(faulty.output).toContain("2 faults in the due file");
    for (const name of ["due", "patency", "culture"]) {
      const schema = await call(["schema", name]);
      expect(JSON.parse(schema.output)).toHaveProperty("properties");
    }
  });
});
