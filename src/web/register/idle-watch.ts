/**
 * Calls back once when nobody has touched the page for a time, and again after the next touch and time.
 * Both clocks are asked: one stands still while a tablet sleeps, the other may be set back.
 */
export function watchIdle(afterMinutes: number, idle: () => void): () => void {
  const limitMs = afterMinutes * 60_000;
  let wall = Date.now();
  let steady = performance.now();
  let told = false;
  const touched = (): void => {
    wall = Date.now();
    steady = performance.now();
    told = false;
  };
  const look = (): void => {
    if (told || Math.max(Date.now() - wall, performance.now() - steady) < limitMs) return;
    told = true;
    idle();
  };
  const events = ["pointerdown", "keydown", "wheel"] as const;
  for (const event of events) addEventListener(event, touched, { capture: true, passive: true });
  document.addEventListener("visibilitychange", look);
  const timer = setInterval(look, Math.min(limitMs / 4, 5000));
  return () => {
    clearInterval(timer);
    document.removeEventListener("visibilitychange", look);
    for (const event of events) removeEventListener(event, touched, { capture: true });
  };
}
