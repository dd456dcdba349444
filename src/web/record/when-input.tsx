import { useState, type ReactNode } from "react";
import {
  civilDateOf,
  clockOf,
  parseCivilDate,
  wallClock,
  type CivilDate,
  type Instant,
} from "../../core/calendar/index.ts";

const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;

export interface When {
  /** undefined: now, at the moment of signing. */
  readonly at: Instant | undefined;
  /** What is wrong with the time typed, in words. */
  readonly question: string | undefined;
}

export const NOW: When = { at: undefined, question: undefined };

/** When it happened: now, or a day and a clock; a time the clock skipped or showed twice is asked about. */
export function WhenInput({
  now,
  set,
}: {
  readonly now: () => Instant;
  readonly set: (when: When) => void;
}): ReactNode {
  const [earlier, setEarlier] = useState<{ date: string; clock: string }>();
  const [second, setSecond] = useState(false);
  if (earlier === undefined) {
    return (
      <p className="when">
        Happened <b>now</b>.{" "}
        <button
          type="button"
          className="add"
          onClick={() => {
            const at = now();
            setEarlier({ date: civilDateOf(at), clock: clockOf(at) });
          }}
        >
          Earlier
        </button>
      </p>
    );
  }
  const read = readWhen(earlier.date, earlier.clock, second);
  const change = (next: { date: string; clock: string }, latter = second) => {
    setEarlier(next);
    setSecond(latter);
    set(readWhen(next.date, next.clock, latter));
  };
  return (
    <div className="when">
      <label>
        Happened on{" "}
        <input
          type="date"
          data-when="date"
          value={earlier.date}
          onChange={({ target }) => change({ ...earlier, date: target.value })}
        />
      </label>{" "}
      <label>
        at{" "}
        <input
          type="time"
          data-when="clock"
          value={earlier.clock}
          onChange={({ target }) => change({ ...earlier, clock: target.value.slice(0, 5) })}
        />
      </label>{" "}
      <button
        type="button"
        className="add"
        onClick={() => {
          setEarlier(undefined);
          set(NOW);
        }}
      >
        Now
      </button>
      {read.question ? <p className="fault">{read.question}</p> : null}
      {isTwice(earlier.date, earlier.clock) ? (
        <label className="tick">
          <input type="checkbox" checked={second} onChange={({ target }) => change(earlier, target.checked)} />
          The clock showed this time twice that night. It was the second.
        </label>
      ) : null}
    </div>
  );
}

function readWhen(date: string, clock: string, second: boolean): When {
  const day = parseCivilDate(date);
  if (!day || !/^\d{2}:\d{2}$/.test(clock)) return { at: undefined, question: "Type the day and the time." };
  const found = wallClock(day, clock, zone);
  if (found.kind === "skipped") {
    return { at: undefined, question: "The clock skipped this time that night. Check the time." };
  }
  return { at: found.kind === "one" ? found.instant : second ? found.second : found.first, question: undefined };
}

const isTwice = (date: string, clock: string): boolean =>
  parseCivilDate(date) !== undefined &&
  /^\d{2}:\d{2}$/.test(clock) &&
  wallClock(date as CivilDate, clock, zone).kind === "twice";
