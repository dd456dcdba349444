import { useMemo, useState, type ReactNode } from "react";
import { firstOfMonth, monthPack, type LotRow } from "../../audit/index.ts";
import { parseCivilDate, type Instant } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { rowWords } from "../../language/index.ts";
import { twoCaseSheet } from "../../paper/case/index.ts";
import { packSheets } from "../../paper/pack/index.ts";
import { SheetPage } from "../paper/sheet-page.tsx";
import { ActionEntry, useLastAction } from "./action-entry.tsx";
import { askedDays, countAddress } from "./count-address.ts";
import type { CountProps } from "./count-page.tsx";
import { rulesFor } from "./count-table.ts";
import "../paper/line-paper.css";

/** The month's four pages and the two cases on a sheet of their own, as they print. */
export function PackPage({
  source,
  measures,
  yardsticks,
  address,
  policy,
  practice,
  printedAt,
  lots,
}: CountProps & { readonly printedAt: Instant; readonly lots: readonly LotRow[] | undefined }): ReactNode {
  const { table } = source;
  const [printed] = useState(printedAt);
  const lastMonth = firstOfMonth(localDate(table.asOf), -1);
  const asked = askedDays(address, { from: lastMonth, to: firstOfMonth(lastMonth, 1), fromOffset: 0, toOffset: 0 });
  const [month, setMonth] = useState(firstOfMonth(asked.to, asked.to.endsWith("-01") ? -1 : 0));
  const [action, keepAction] = useLastAction(month);
  const sheets = useMemo(() => {
    const rules = rulesFor(policy, { from: firstOfMonth(month, -12) });
    if (!rules) return undefined;
    const pack = monthPack(table, measures, month, rules, { ...(action && { action }), ...(lots && { lots }) });
    const rows = new Map(table.lines.map((row) => [row.key, row]));
    const nameOf = (key: string) => {
      const row = rows.get(key);
      return row && source.kind === "record" ? rowWords(row) : key;
    };
    const pages = packSheets(pack, measures, { policy, printedAt: printed, practice, nameOf, yardsticks });
    return [...pages, twoCaseSheet(pack, { policyVersion: policy.version, practice })];
  }, [table, source, measures, yardsticks, lots, policy, month, action, printed, practice]);
  return (
    <main className="count paper-route">
      <div className="no-print">
        <nav aria-label="Paper">
          <a href={`#${countAddress(address)}`}>Back to the count</a>
        </nav>
        <fieldset className="period">
          <legend>The month</legend>
          <label>
            Month
            <input
              type="month"
              value={month.slice(0, 7)}
              data-pack="month"
              onChange={({ target }) => {
                const day = parseCivilDate(`${target.value}-01`);
                if (day) setMonth(day);
              }}
            />
          </label>
          <button type="button" onClick={() => globalThis.print()}>
            Print all pages
          </button>
        </fieldset>
        <ActionEntry key={month} measures={measures} action={action} keep={keepAction} />
      </div>
      {sheets?.map((sheet) => (
        <SheetPage key={sheet.title} sheet={sheet} />
      ))}
    </main>
  );
}
