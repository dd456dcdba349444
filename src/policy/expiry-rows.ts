import { local, row } from "./row.ts";

/** How long a reading counts before the page greys it. Nothing is deleted. */
export const expiryRows = {
  "expiry.vein-reading": row(24, "hours", "A vein reading older than this is greyed: measure again", local, [1, 168]),
  "expiry.weight-child": row(168, "hours", "A child's weight older than this is greyed: weigh again", local, [12, 720]),
  "expiry.weight-newborn": row(
    24,
    "hours",
    "A newborn's weight older than this is greyed: weigh again",
    local,
    [6, 168],
  ),
} as const;
