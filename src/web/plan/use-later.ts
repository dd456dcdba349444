import { useEffect, useState } from "react";

/** Long enough for the answer to stand on a slow machine before anything else is loaded. */
const LATER_MS = 400;

/** False at first, true a moment later: for what may come after the answer. */
export function useLater(): boolean {
  const [later, setLater] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setLater(true), LATER_MS);
    return () => clearTimeout(timer);
  }, []);
  return later;
}
