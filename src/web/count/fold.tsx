import { useState, type ReactNode } from "react";

/** A page as narrow as this folds what is not the answer; one that is wider shows it. Paper shows all of it. */
const NARROW = "(max-width: 640px)";

/** A part that folds away on a narrow screen, by the browser's own disclosure. */
export function Fold({
  name,
  part,
  children,
}: {
  readonly name: string;
  readonly part: string;
  readonly children: ReactNode;
}): ReactNode {
  // asked once: a person who opened or closed it is not overruled by a turn of the screen
  const [open] = useState(() => !globalThis.matchMedia(NARROW).matches);
  return (
    <details className="fold" data-fold={part} open={open}>
      <summary>{name}</summary>
      {children}
    </details>
  );
}
