import { useState } from "react";
import type { PageSize } from "../../paper/line/index.ts";

const KEY = "veinwright.paper";

/** What this device's printer holds: chosen once, and kept here for the next month. */
export function usePageSize(): readonly [PageSize, (size: PageSize) => void] {
  const [size, setSize] = useState(kept);
  return [
    size,
    (chosen) => {
      setSize(chosen);
      try {
        globalThis.localStorage.setItem(KEY, chosen);
      } catch {
        // it stands until the page is closed
      }
    },
  ];
}

function kept(): PageSize {
  try {
    return globalThis.localStorage.getItem(KEY) === "letter" ? "letter" : "A4";
  } catch {
    return "A4";
  }
}
