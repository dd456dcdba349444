import type { ReactNode } from "react";
import { firstOfMonth, type AuditTable } from "../../audit/index.ts";
import { addDays, parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { goToCount, type CountAddress } from "./count-address.ts";

/** The two days of the period, as people say them, and the periods asked for most. */
export function PeriodEntry({
  address,
  from,
  to,
  table,
}: {
  readonly address: CountAddress;
  readonly from: CivilDate;
  readonly to: CivilDate;
  readonly table: AuditTable;
}): ReactNode {
  const last = localDate(table.asOf);
  const go = (first: CivilDate, after: CivilDate) => {
    if (first < after) goToCount({ ...address, from: first, to: after });
  };
  const usual: readonly (readonly [string, CivilDate, CivilDate])[] = [
    ["Last month", firstOfMonth(last, -1), firstOfMonth(last, 0)],
    ["This month so far", firstOfMonth(last, 0), addDays(last, 1)],
    ["Twelve whole months", firstOfMonth(last, -12), firstOfMonth(last, 0)],
  ];
  return (
    <fieldset className="period">
      <legend>Period</legend>
      <label>
        From
        <input
          type="date"
          value={from}
          data-period="from"
          onChange={({ target }) => {
            const day = parseCivilDate(target.value);
            if (day) go(day, to);
          }}
        />
      </label>
      <label>
        To, this day counted
        <input
          type="date"
          value={addDays(to, -1)}
          data-period="to"
          onChange={({ target }) => {
            const day = parseCivilDate(target.value);
            if (day) go(from, addDays(day, 1));
          }}
        />
      </label>
      {usual.map(([name, first, after]) => (
        <button
          key={name}
          type="button"
          className="quiet"
          aria-pressed={first === from && after === to}
          onClick={() => go(first, after)}
        >
          {name}
        </button>
      ))}
    </fieldset>
  );
}
