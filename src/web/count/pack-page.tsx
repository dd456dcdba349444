import { useMemo, useState, type ReactNode } from "react";
import { firstOfMonth, monthPack, type LotRow } from "../../audit/index.ts";
import { parseCivilDate, type Instant } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { countWords, memoryWords, rowWords } from "../../language/index.ts";
import { twoCaseSheet } from "../../paper/case/index.ts";
import { packSheets } from "../../paper/pack/index.ts";
import { serviceMemory, serviceSubject } from "../../register/index.ts";
import { SheetPage } from "../paper/sheet-page.tsx";
import { historyOf, useRecord } from "../record/record-context.tsx";
import { ActionEntry, useFileAction } from "./action-entry.tsx";
import { askedDays, countAddress } from "./count-address.ts";
import type { CountProps } from "./count-page.tsx";
import { rulesFor } from "./count-table.ts";
import { MemoryPart } from "./memory-part.tsx";
import { usePageSize } from "./pack-paper.ts";
import "../paper/line-paper.css";

/** The month's four pages and the two cases on a sheet of their own, as they print, and what the record keeps of them. */
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
  const { register } = useRecord();
  const { table, kind } = source;
  const [printed] = useState(printedAt);
  const lastMonth = firstOfMonth(localDate(table.asOf), -1);
  const asked = askedDays(address, { from: lastMonth, to: firstOfMonth(lastMonth, 1), fromOffset: 0, toOffset: 0 });
  const [month, setMonth] = useState(firstOfMonth(asked.to, asked.to.endsWith("-01") ? -1 : 0));
  const [ownFile, setOwnFile] = useState(false);
  const remembers = kind === "record" || ownFile;
  const history = historyOf(register, serviceSubject(register.rehearsing));
  const memory = useMemo(() => (remembers ? serviceMemory(history) : undefined), [remembers, history]);
  const [typed, keepTyped] = useFileAction(month);
  const action = remembers ? undefined : typed;
  const rules = useMemo(() => rulesFor(policy, { from: firstOfMonth(month, -12) }), [policy, month]);
  const pack = useMemo(
    () =>
      rules &&
      monthPack(table, measures, month, rules, {
        ...(action && { action }),
        ...(lots && { lots }),
        ...(memory && { memory }),
      }),
    [table, measures, month, rules, action, lots, memory],
  );
  const nameOf = useMemo(() => {
    const rows = new Map(table.lines.map((row) => [row.key, row]));
    return (key: string): string => {
      const row = rows.get(key);
      return row ? rowWords(row) : key;
    };
  }, [table]);
  const [size, keepSize] = usePageSize();
  const sheets = useMemo(
    () =>
      pack && [
        ...packSheets(pack, measures, { policy, printedAt: printed, practice, size, nameOf, yardsticks }),
        twoCaseSheet(pack, { policyVersion: policy.version, practice, size }),
      ],
    [pack, measures, yardsticks, policy, printed, practice, size, nameOf],
  );
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
          <label>
            {countWords.paper}
            <select
              value={size}
              data-pack="paper"
              onChange={({ target }) => keepSize(target.value === "letter" ? "letter" : "A4")}
            >
              <option value="A4">{countWords.paperA4}</option>
              <option value="letter">{countWords.paperLetter}</option>
            </select>
          </label>
          <button type="button" onClick={() => globalThis.print()}>
            Print all pages
          </button>
          {kind === "file" ? (
            <label className="tick">
              <input
                type="checkbox"
                checked={ownFile}
                data-pack="own"
                onChange={({ target }) => setOwnFile(target.checked)}
              />
              {memoryWords.own}
            </label>
          ) : null}
        </fieldset>
        {remembers ? null : (
          <ActionEntry key={month} month={month} measures={measures} action={typed} keep={keepTyped} />
        )}
        {pack && memory && rules ? (
          <MemoryPart
            key={month}
            table={table}
            measures={measures}
            pack={pack}
            memory={memory}
            rules={rules}
            ruleVersion={policy.version}
            nameOf={nameOf}
            rehearsing={register.rehearsing}
          />
        ) : null}
      </div>
      {sheets?.map((sheet) => (
        <SheetPage key={sheet.title} sheet={sheet} />
      ))}
    </main>
  );
}
