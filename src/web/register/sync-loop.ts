const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 5 * 60_000;
const QUIET_MS = 30_000; // how often a page in sight asks what is new

/**
 * Runs a round whenever it may help: at once when asked, when the network or the page comes back, and after a wait that
 * doubles with every round that failed. One tab at a time: the others leave the round to the one that holds the lock.
 */
export class SyncLoop {
  readonly #round: () => Promise<boolean>;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #failed = 0;
  #running = false;
  #again = false;
  #stopped = true;

  /** `round` says whether the server answered. */
  constructor(round: () => Promise<boolean>) {
    this.#round = round;
  }

  start(): void {
    this.#stopped = false;
    addEventListener("online", this.#wake);
    addEventListener("offline", this.#look);
    document.addEventListener("visibilitychange", this.#wake);
    this.poke();
  }

  stop(): void {
    this.#stopped = true;
    removeEventListener("online", this.#wake);
    removeEventListener("offline", this.#look);
    document.removeEventListener("visibilitychange", this.#wake);
    clearTimeout(this.#timer);
  }

  /** Runs a round now, or once more when one is running. */
  poke(): void {
    if (this.#stopped) return;
    if (this.#running) this.#again = true;
    else void this.#run();
  }

  readonly #wake = (): void => {
    if (document.visibilityState === "hidden") return;
    this.#failed = 0;
    this.poke();
  };

  /** The network is said to be gone: a round finds out whether that is so. */
  readonly #look = (): void => this.poke();

  async #run(): Promise<void> {
    this.#running = true;
    clearTimeout(this.#timer);
    let answered = false;
    try {
      answered = await alone(this.#round);
    } catch {
      // what went wrong is told by the device; here it only means to wait longer
    }
    this.#running = false;
    if (this.#stopped) return;
    if (answered) this.#failed = 0;
    else this.#failed += 1;
    if (this.#again) {
      this.#again = false;
      this.poke();
      return;
    }
    const backOff = Math.min(FIRST_WAIT_MS * 2 ** (this.#failed - 1), LONGEST_WAIT_MS);
    // spread out, so that a ward of tablets does not come back in one second
    const wait = answered ? QUIET_MS : backOff * (0.75 + Math.random() / 2);
    this.#timer = setTimeout(() => this.poke(), wait);
  }
}

/** Runs while no other tab of this device does; a round that another tab is running counts as answered. */
function alone(round: () => Promise<boolean>): Promise<boolean> {
  // without the lock (a page that is not in a secure context) two tabs may send the same: the server takes it once
  if (!("locks" in navigator)) return round();
  return navigator.locks.request("veinwright-send", { ifAvailable: true }, (lock) => (lock ? round() : true));
}
