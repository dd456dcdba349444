import type { ReactNode } from "react";

/** How far a file is read, and the press that stops it. */
export function ReadingPart({
  share,
  said,
  stop,
}: {
  readonly share: number;
  readonly said: string;
  readonly stop: () => void;
}): ReactNode {
  return (
    <span className="reading">
      <progress max={1} value={share} aria-label="Read so far" />
      <span>{said}</span>
      <button type="button" data-reading="stop" onClick={stop}>
        Stop
      </button>
    </span>
  );
}
