import * as z from "zod";
import { readCaseText } from "../../contract/index.ts";
import { bedsidePlan } from "../../core/line-plan/index.ts";
import { runSelfTest } from "../../core/self-test/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../policy/index.ts";
import { demoShelf } from "../../practice/index.ts";
import { Refusal } from "../http/refusal.ts";
import { route, type Route } from "./route.ts";

/** Whether the program calculates as it should, and one question: nothing is stored, so nobody need sign in. */
export const planRoutes: readonly Route[] = [
  route({
    method: "GET",
    path: "/api/health",
    asker: "anyone",
    summary: "The program's own check of its numbers",
    writes: false,
    status: 200,
    answer: z.looseObject({ passed: z.literal(true), policyVersion: z.string() }),
    refuses: [],
    run: async () => {
      const selfTest = runSelfTest(planPolicyFrom(defaultPolicy.table));
      if (!selfTest.passed) throw new Refusal("self-test");
      return { body: { ...selfTest, policyVersion: defaultPolicy.version } };
    },
  }),
  route({
    method: "POST",
    path: "/api/plan",
    asker: "anyone",
    summary: "A case as docs/reference/case-schema.json describes it, answered with its plan; nothing is kept",
    writes: false,
    status: 200,
    answer: z.looseObject({}),
    refuses: ["faults"],
    run: async ({ request }) => {
      const reading = readCaseText(await request.text(), demoShelf);
      if (reading.kind === "faults") {
        // the value found stays out, and the name of an unknown field is text a person typed, too
        const faults = reading.faults.map(({ path, code }) => ({
          path: code === "unknown-field" ? path.split(".").slice(0, -1).join(".") : path,
          code,
        }));
        throw new Refusal("faults", { faults });
      }
      const { planned: _, ...said } = bedsidePlan(reading.input, planPolicyFrom(defaultPolicy.table));
      return { body: said };
    },
  }),
];
