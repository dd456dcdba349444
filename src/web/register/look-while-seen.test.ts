import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { lookWhileSeen } from "./look-while-seen.ts";

// A page out of sight asks nothing of a server: Page Visibility, W3C, section on use cases; the minute and the doubling
// are our own.
class Page extends EventTarget {
  visibilityState: DocumentVisibilityState = "visible";
  turn(state: DocumentVisibilityState): void {
    this.visibilityState = state;
    this.dispatchEvent(new Event("visibilitychange"));
  }
}
const MINUTE = 60_000;
const started = (answers: boolean) => {
  const page = new Page();
  const look = vi.fn(() => Promise.resolve(answers));
  return { page, look, end: lookWhileSeen(look, page) };
};

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test("in sight it looks at once and once a minute", async () => {
  const { look, end } = started(true);
  await vi.advanceTimersByTimeAsync(3 * MINUTE + 1);
  expect(look).toHaveBeenCalledTimes(4);
  end();
  await vi.advanceTimersByTimeAsync(10 * MINUTE);
  expect(look).toHaveBeenCalledTimes(4);
});

test("out of sight it asks nothing, and looks at once when it comes back", async () => {
  const { page, look, end } = started(true);
  await vi.advanceTimersByTimeAsync(1);
  page.turn("hidden");
  await vi.advanceTimersByTimeAsync(60 * MINUTE);
  expect(look).toHaveBeenCalledTimes(1);
  page.turn("visible");
  await vi.advanceTimersByTimeAsync(1);
  expect(look).toHaveBeenCalledTimes(2);
  end();
});

test("a look that fails waits 2, 4 and 8 minutes, and never more than 15", async () => {
  const { look, end } = started(false);
  await vi.advanceTimersByTimeAsync(14 * MINUTE + 1);
  expect(look).toHaveBeenCalledTimes(4);
  await vi.advanceTimersByTimeAsync(15 * MINUTE);
  expect(look).toHaveBeenCalledTimes(5);
  await vi.advanceTimersByTimeAsync(15 * MINUTE);
  expect(look).toHaveBeenCalledTimes(6);
  end();
});
