// @ts-check
// A test that passed only when tried again is named at the end of the gate: a second try may not hide a fault.
import { appendFileSync } from "node:fs";
import { relative } from "node:path";

export const SECOND_TRIES = ".cache/second-try.txt";

/** @implements {import("vitest/node").Reporter} */
export default class SecondTry {
  /** @param {import("vitest/node").TestCase} test */
  onTestCaseResult(test) {
    if (test.diagnostic()?.flaky !== true) return;
    const where = relative(process.cwd(), test.module.moduleId);
    const why = test.result().errors?.[0]?.message.split("\n")[0] ?? "";
    appendFileSync(SECOND_TRIES, `SECOND TRY ${test.project.name}: ${where}: ${test.fullName} (at first: ${why})\n`);
  }
}
