import type { ReactNode } from "react";
import { sayNoColumn } from "../../language/index.ts";
import { EVENT_FIELDS, type Matching } from "../../spreadsheet/index.ts";

/** The kinds of event no column was matched to: a column left out unseen would make a year without infections. */
export function NoColumn({ matching }: { readonly matching: Matching }): ReactNode {
  const missing = EVENT_FIELDS.filter((name) => !matching.columns.some(({ field }) => field === name));
  return missing.length === 0 ? null : <p data-import="no-column">{sayNoColumn(missing)}</p>;
}
