import { defineConfig } from "vitest/config";

/** A quick kind of test shares its threads; a kind that drives a browser or a process gets longer and runs one file at a time. */
const quick = (name: string, include: string[]) => ({
  test: { name, include, isolate: false, pool: "threads" as const, testTimeout: 60_000 },
});
const slow = (name: string, include: string[]) => ({
  test: { name, include, pool: "forks" as const, fileParallelism: false, testTimeout: 120_000, hookTimeout: 180_000 },
});
/** A browser beside other work can be late by itself: one second try, which the gate names (script/second-try.mjs). */
const inBrowser = (name: string, include: string[]) => {
  const { test } = slow(name, include);
  return { test: { ...test, retry: 1 } };
};

export default defineConfig({
  test: {
    projects: [
      quick("unit", ["src/**/*.test.ts", "src/**/*.test.tsx"]),
      quick("architecture", ["test/architecture/**/*.test.ts"]),
      quick("specification", ["test/specification/**/*.test.ts"]),
      quick("property", ["test/property/**/*.test.ts"]),
      quick("reference", ["reference/**/*.test.ts"]),
      quick("server", ["test/server/**/*.test.ts"]),
      slow("store-contract", ["test/store-contract/**/*.test.ts"]),
      slow("documentation", ["test/documentation/**/*.test.ts"]),
      slow("acceptance", ["test/acceptance/**/*.test.ts"]),
      inBrowser("browser", ["test/browser/**/*.test.ts"]),
      inBrowser("accessibility", ["test/accessibility/**/*.test.ts"]),
    ],
  },
});
