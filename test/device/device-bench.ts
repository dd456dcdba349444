import type { Browser, BrowserContext, BrowserContextOptions } from "playwright-core";
import { afterAll, afterEach, beforeEach } from "vitest";
import { launchBrowser } from "../browser/browser.ts";
import { devicePage } from "./device-browser.ts";
import { startSmallServer, type SmallServer } from "./small-server.ts";

/** A device that keeps nothing yet and the server it talks to, both new for each test; the browser is the file's. */
export interface DeviceBench {
  readonly browser: Browser;
  readonly server: SmallServer;
  readonly context: BrowserContext;
  /** Brings a stopped server back at its address, with nothing in its store. */
  readonly restartServer: () => Promise<void>;
  /** Another empty device instead, with the screen that is asked for. */
  readonly takeDevice: (options: BrowserContextOptions) => Promise<void>;
}

export async function deviceBench(): Promise<DeviceBench> {
  const [browser, files] = await Promise.all([launchBrowser(), devicePage()]);
  const bench = {
    browser,
    restartServer: async () => {
      bench.server = await startSmallServer(files, bench.server.port);
    },
    takeDevice: async (options: BrowserContextOptions) => {
      await bench.context.close();
      bench.context = await browser.newContext(options);
    },
  } as { -readonly [Part in keyof DeviceBench]: DeviceBench[Part] };
  afterAll(() => browser.close());
  beforeEach(async () => {
    bench.server = await startSmallServer(files);
    bench.context = await browser.newContext();
  });
  afterEach(async () => {
    await bench.context.close().catch(() => undefined); // a test may have killed it
    await bench.server.stop();
  });
  return bench;
}
