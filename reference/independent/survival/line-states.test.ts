import { readFileSync } from "node:fs";
import { checkTable, lineStates } from "../../../src/audit/index.ts";
import { readLineTable } from "../../../src/contract/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../../src/policy/index.ts";
import { checkAgainst } from "../../check.ts";
import { timed } from "../../by-hand/count/plain-row.ts";

const beside = (name: string) => readFileSync(new URL(name, import.meta.url), "utf8");
/** Made by line-states-golden.R beside this file. */
const golden = JSON.parse(beside("line-states-golden.json")) as Readonly<
  Record<"days" | "shares" | "blocks" | "cleared", readonly number[]>
>;
const limits = countLimitsFrom(defaultPolicyTable);

checkAgainst(
  {
    quantity: "Lines never blocked, blocked, running again and out, from a line table",
    unit: "share, or blocks",
    source: "R 4.2.2, survival 3.5-3, survfit of several states (line-states-golden.R)",
    kind: "independent",
    tolerance: 1e-10,
    comparisons: 22,
  },
  (compare) => {
    const reading = readLineTable(beside("line-states.csv"), timed("2025-12-31T12:00Z"));
    if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
    const { facts } = checkTable(
      reading.table,
      limits,
      surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
    );
    const answer = lineStates(facts, golden.days, limits);
    if (answer.kind !== "told") throw new Error(answer.kind);
    compare("blocks", answer.blocks, golden.blocks[0] as number);
    compare("seen to run again", answer.cleared, golden.cleared[0] as number);
    for (const [day, { shares }] of answer.days.entries())
      for (const [at, { state, share }] of shares.entries())
        compare(`${state} by day ${golden.days[day]}`, share, golden.shares[day * 4 + at] as number);
  },
);
