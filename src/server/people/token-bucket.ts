/** Lets so many through in a minute for each key, refilled evenly; says how long to wait when it does not. */
export class TokenBucket {
  readonly #perMinute: number;
  readonly #held = new Map<string, { tokens: number; atMs: number }>();

  constructor(perMinute: number) {
    this.#perMinute = perMinute;
  }

  /** Seconds until the next is let through, 0 when this one is. */
  take(key: string, nowMs: number): number {
    const held = this.#held.get(key) ?? { tokens: this.#perMinute, atMs: nowMs };
    const refilled = held.tokens + (Math.max(0, nowMs - held.atMs) / 60_000) * this.#perMinute;
    const tokens = Math.min(this.#perMinute, refilled);
    this.#held.set(key, { tokens: tokens >= 1 ? tokens - 1 : tokens, atMs: nowMs });
    if (this.#held.size > MOST_KEYS) this.#sweep(nowMs);
    return tokens >= 1 ? 0 : Math.ceil(((1 - tokens) * 60) / this.#perMinute);
  }

  /** A key not seen for a minute is full again: nothing is lost by forgetting it. */
  #sweep(nowMs: number): void {
    for (const [key, { atMs }] of this.#held) if (nowMs - atMs >= 60_000) this.#held.delete(key);
    // a flood of keys within one minute: the oldest go, so that memory has an end
    for (const key of this.#held.keys()) {
      if (this.#held.size <= MOST_KEYS) break;
      this.#held.delete(key);
    }
  }
}
const MOST_KEYS = 10_000;
