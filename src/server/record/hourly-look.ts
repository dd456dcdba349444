const HOUR_MS = 3_600_000;

/** A look that the server takes by itself now and then once an hour. */
export interface HourlyLook {
  /** The first look, for who must know that it was made; the server does not wait for it. */
  readonly looked: Promise<void>;
  /** Ends it, after a look that is being made. */
  readonly end: () => Promise<void>;
}

/** Looks now and every hour, one look after the other. The look itself tells of what fails: it must not throw. */
export function lookHourly(look: () => Promise<void>): HourlyLook {
  const looked = look();
  let last = looked;
  const timer = setInterval(() => {
    last = last.then(look);
  }, HOUR_MS);
  timer.unref();
  return {
    looked,
    end: () => {
      clearInterval(timer);
      return last;
    },
  };
}
