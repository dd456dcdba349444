import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly target: readonly string[] }[];
}

/** What axe-core finds on a page against WCAG 2.2, levels A and AA: each rule with the places that break it. */
export async function axeFindings(page: Page): Promise<readonly string[]> {
  // the page's own policy lets no foreign script in, so axe is handed over as an evaluated text
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe: tool } = globalThis as unknown as {
      axe: { run: (options: unknown) => Promise<{ violations: readonly Violation[] }> };
    };
    const { violations } = await tool.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"] });
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join("; ")}`);
  });
}
