import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

/*
 * The values that R gave are kept beside their scripts, so that every machine can be held against them. Where R is
 * installed the scripts are run again here, and must give what is kept: a value cannot go stale, nor a script drift.
 */

interface Script {
  readonly folder: string;
  readonly name: string;
  /** Packages beyond those every R has. */
  readonly packages: readonly string[];
  /** Largest relative difference: closed forms agree to the last digits in any R, fits to their own stopping rule. */
  readonly tolerance: number;
}

const SCRIPTS: readonly Script[] = [
  { folder: "distribution", name: "distribution-r-golden", packages: [], tolerance: 1e-11 },
  { folder: "incidence", name: "incidence-golden", packages: [], tolerance: 1e-8 },
  { folder: "control-chart", name: "control-chart-golden", packages: [], tolerance: 1e-9 },
  { folder: "survival", name: "survival-golden", packages: ["survival", "cmprsk"], tolerance: 1e-8 },
  { folder: "survival", name: "gray-golden", packages: ["cmprsk"], tolerance: 1e-8 },
  { folder: "count", name: "rate-model-golden", packages: [], tolerance: 1e-7 },
  { folder: "survival", name: "line-states-golden", packages: ["survival"], tolerance: 1e-9 },
  { folder: "regression", name: "regression-golden", packages: ["survival", "cmprsk", "MASS"], tolerance: 1e-6 },
  { folder: "regression", name: "shared-golden", packages: ["survival"], tolerance: 1e-6 },
  { folder: "shrinkage", name: "full-bayes-golden", packages: [], tolerance: 1e-7 },
  { folder: "shrinkage", name: "beta-binomial-golden", packages: [], tolerance: 1e-8 },
  { folder: "shrinkage", name: "funnel-golden", packages: [], tolerance: 1e-10 },
  { folder: "shrinkage", name: "ward-funnel-golden", packages: [], tolerance: 1e-7 },
  // chances down to 5e-9, told to 1e-13
  { folder: "shrinkage", name: "rank-golden", packages: [], tolerance: 1e-4 },
  { folder: "shrinkage", name: "smooth-rates-golden", packages: [], tolerance: 1e-6 },
];

function rscript(args: readonly string[], folder?: string): { readonly ok: boolean; readonly output: string } {
  const cwd = folder === undefined ? undefined : fileURLToPath(new URL(`../${folder}/`, import.meta.url));
  const run = spawnSync("Rscript", ["--vanilla", ...args], { encoding: "utf8", cwd, maxBuffer: 1 << 28 });
  return { ok: run.status === 0, output: run.status === 0 ? run.stdout : run.stderr };
}

/** Every number of a JSON text in the order it stands; what R does not give is null and has to stay so. */
function numbersOf(value: unknown): (number | null)[] {
  if (typeof value === "number" || value === null) return [value];
  if (typeof value !== "object") return [];
  return (Array.isArray(value) ? value : Object.values(value)).flatMap(numbersOf);
}

const version = rscript(["-e", "cat(R.version.string)"]);

describe("R run live against the values kept", () => {
  if (!version.ok) {
    console.log("R is not installed here: its kept values stand unrepeated. Install r-base-core to repeat them.");
    test("R is not installed here: the kept values stand unrepeated; install r-base-core to repeat them", () => {
      expect(version.ok).toBe(false);
    });
    return;
  }
  for (const { folder, name, packages, tolerance } of SCRIPTS) {
    const absent = packages.filter((each) => !rscript(["-e", `library(${each})`]).ok);
    if (absent.length > 0) {
      console.log(`${name} is not repeated: ${version.output} lacks ${absent.join(", ")}.`);
      test(`${name} is not repeated here: ${version.output} lacks ${absent.join(", ")}`, () => {
        expect(absent).not.toEqual([]);
      });
      continue;
    }
    // nested quadrature takes R half a minute on a busy machine
    test(`${name} gives the same in ${version.output}`, { timeout: 240_000 }, () => {
      const live = rscript([`${name}.R`], folder);
      expect(live.ok, live.output).toBe(true);
      const kept = readFileSync(new URL(`../${folder}/${name}.json`, import.meta.url), "utf8");
      const [now, before] = [numbersOf(JSON.parse(live.output)), numbersOf(JSON.parse(kept))];
      expect(before.length).toBeGreaterThan(10);
      expect(now.length).toBe(before.length);
      for (const [k, then] of before.entries()) {
        const here = now[k];
        if (then === null || here === null || here === undefined) expect(here, `number ${k + 1}`).toBe(then);
        else
          expect(Math.abs(here - then), `number ${k + 1}: ${here}, kept ${then}`).toBeLessThanOrEqual(
            tolerance * Math.abs(then) + 1e-300,
          );
      }
    });
  }
});
