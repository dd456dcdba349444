import { afterAll } from "vitest";
import { launchBrowser, startServer, type Browser, type Served } from "./browser.ts";

/** One built server and one browser for every test of a file, started beside each other and ended with the file. */
export async function servedBrowser(): Promise<{ readonly browser: Browser; readonly served: Served }> {
  const [served, browser] = await Promise.all([startServer(), launchBrowser()]);
  afterAll(async () => {
    await browser.close();
    served.stop();
  });
  return { browser, served };
}
