import { useEffect, useState, type ReactNode } from "react";
import { signerWords } from "../../language/index.ts";
import { watchIdle } from "./idle-watch.ts";

/**
 * Hides names on a screen nobody has touched for a time; one tap shows them again. What is hidden is marked in device.css:
 * anything with `data-name`, the header of a patient and the lists of people, from readers of the screen too.
 */
export function NamesCover({ afterMinutes }: { readonly afterMinutes: number }): ReactNode {
  const [hidden, setHidden] = useState(false);
  useEffect(() => watchIdle(afterMinutes, () => setHidden(true)), [afterMinutes]);
  useEffect(() => {
    document.documentElement.toggleAttribute("data-names-hidden", hidden);
    return () => document.documentElement.removeAttribute("data-names-hidden");
  }, [hidden]);
  if (!hidden) return null;
  return (
    <output className="names-cover">
      <span>{signerWords.hidden}</span>{" "}
      <button type="button" onClick={() => setHidden(false)} data-names="show">
        {signerWords.show}
      </button>
    </output>
  );
}
