import { randomUUID } from "node:crypto";
import { noteSignals, readMeasures } from "../../audit/index.ts";
import { civilDateOf } from "../../core/calendar/index.ts";
import { ruleInForce } from "../../core/dwell/index.ts";
import { notedLines } from "../../language/index.ts";
import { lineRulesFrom } from "../../paper/line/index.ts";
import { countLimitsFrom, cultureLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../../policy/index.ts";
import { mustBeThere, openStore } from "../../store/index.ts";
import { recordRefused } from "./record-refused.ts";
import type { Command } from "./command.ts";

/** What the server does once a day, by hand: new signals against the bases in force are noted in the record. */
export const signalsCommand: Command = {
  name: "signals",
  summary: "Note new signals of the record, as the server does once a day.",
  options: ["--store"],
  usage: "veinwright signals [--store PLACE] [--json]",
  readsFile: false,
  run: async ({ json, store: place, moment }) => {
    const read = readMeasures();
    const surveillance = ruleInForce<(typeof surveillanceDefinitions)[number]>(
      surveillanceDefinitions,
      civilDateOf(moment),
    );
    if (read.kind === "faults" || !surveillance)
      return { exit: 65, output: "No surveillance definition of today is kept." };
    try {
      mustBeThere(place);
      const store = await openStore(place);
      try {
        const noted = await noteSignals(
          store,
          read.measures,
          {
            limits: countLimitsFrom(defaultPolicy.table),
            surveillance,
            fold: { rules: lineRulesFrom(defaultPolicy), cultures: cultureLimitsFrom(defaultPolicy.table) },
            policyVersion: defaultPolicy.version,
          },
          { now: moment, newId: randomUUID, device: "command line" },
        );
        return { exit: 0, output: json ? JSON.stringify({ noted }, null, 2) : notedLines(noted).join("\n") };
      } finally {
        await store.close();
      }
    } catch (error) {
      return { exit: 65, output: recordRefused(error, place).said };
    }
  },
};
