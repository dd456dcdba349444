import { useMemo, useState, type ReactNode } from "react";
import { Link } from "wouter";
import { civilDateOf, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { armWords, sayDay, sayDistance, sayDueWhat, sayLook, sayRowState } from "../../language/index.ts";
import {
  answerLine,
  homeRound,
  lyticLooks,
  todayList,
  todayRow,
  valueIn,
  weekendList,
  weekendOf,
  type TodayRow,
} from "../../register/index.ts";
import { patencyLimitsFrom } from "../../policy/index.ts";
import type { Register } from "../register/register.ts";
import { ReadTogether } from "./read-together.tsx";
import { idOf, lineOf, patientFor, useAll, useRecord } from "./record-context.tsx";
import { knownAt, plannedFor, rulesFrom, useNow } from "./use-line-answer.ts";

const VIEWS = ["today", "weekend", "home round", "read together"] as const;

/** The Look-after door: every line that is in, by what it needs; the weekend; the home round. */
export function TodayPage(): ReactNode {
  const { register, policy } = useRecord();
  const lines = useAll("line", lineOf);
  const now = useNow(register);
  const today = civilDateOf(now);
  const [view, setView] = useState<(typeof VIEWS)[number]>("today");
  const rows = useMemo(() => {
    const rules = rulesFrom(policy);
    const limits = patencyLimitsFrom(policy.table);
    const known = knownAt(register, now);
    return lines.flatMap((line) => {
      const looks = lyticLooks(line, now, limits);
      const row = todayRow(line, answerLine(line, plannedFor(register, line), known, now, rules), looks);
      return row ? [row] : [];
    });
  }, [lines, policy, register, now]);
  return (
    <main className="door-page">
      <h1>Look after</h1>
      <p className="lead">
        {rows.length} {rows.length === 1 ? "line" : "lines"} in, {sayDay(today)}.
      </p>
      <fieldset className="views" aria-label="Which list">
        {VIEWS.map((one) => (
          <button key={one} type="button" aria-pressed={view === one} onClick={() => setView(one)}>
            {one}
          </button>
        ))}
      </fieldset>
      {view === "today" ? <TodayGroups rows={rows} today={today} /> : null}
      {view === "weekend" ? <Weekend rows={rows} today={today} /> : null}
      {view === "home round" ? <Round rows={rows} today={today} /> : null}
      {view === "read together" ? <ReadTogether today={today} /> : null}
    </main>
  );
}

function TodayGroups({ rows, today }: { readonly rows: readonly TodayRow[]; readonly today: CivilDate }): ReactNode {
  const list = todayList(rows, today);
  return (
    <>
      <Group title="Do not use, or call" rows={list.notToUse} today={today} />
      <Group title="Nobody owns these" rows={list.unowned} today={today} />
      <Group title="Placed, not released" rows={list.notReleased} today={today} />
      <Group title="Due" rows={list.dueNow} today={today} />
      <Group title="Still needed?" rows={list.stillNeeded} today={today} />
      <p className="soft">
        {list.rest === 0 ? "No line is without a reason to look." : `${list.rest} more: nothing asked of them today.`}
      </p>
    </>
  );
}

function Group({
  title,
  rows,
  today,
}: {
  readonly title: string;
  readonly rows: readonly TodayRow[];
  readonly today: CivilDate;
}): ReactNode {
  if (rows.length === 0) return null;
  return (
    <section data-group={title}>
      <h2>{title}</h2>
      <ul className="due-rows">
        {rows.map((row) => (
          <Row key={row.subject} row={row} today={today} />
        ))}
      </ul>
    </section>
  );
}

function Row({ row, today }: { readonly row: TodayRow; readonly today: CivilDate }): ReactNode {
  const { register } = useRecord();
  const patient = patientFor(register, row.patient);
  const dated = row.due.filter(({ what }) => what !== "owner, place and date");
  const [first] = dated;
  const now = dayNumber(today);
  const others = dated.slice(1).filter(({ on }) => dayNumber(on) <= now).length;
  const arm = armOf(register, row);
  return (
    <li>
      <Link href={`/line/${idOf(row.subject)}`} data-line={idOf(row.subject)}>
        <b>{patient?.name ?? "name missing"}</b>
        <span>
          no. {patient?.number || "missing"} {arm ? armWords(arm) : "arm not known"}
        </span>
        <span>{row.place || "no place named"}</span>
        <span>{row.owner || "nobody named"}</span>
        <span className={row.release === "may be used" && !row.suspected ? "soft" : "word"}>
          {sayRowState(row.release, row.suspected)}
        </span>
        <span>
          {row.look ? <b className="look">{sayLook(row.look.at, register.now())}. </b> : null}
          {first
            ? `${sayDueWhat(first.what)} ${sayDistance(first.on, today)}${others > 0 ? `, and ${others} more` : ""}`
            : "Nothing dated. Ask."}
        </span>
      </Link>
    </li>
  );
}

/** The arm of a line in a list, as its placing says. */
function armOf(register: Register, row: TodayRow): "right" | "left" | undefined {
  const history = register.histories.get(row.subject);
  return history && valueIn(lineOf(history).said.arm);
}

function Weekend({ rows, today }: { readonly rows: readonly TodayRow[]; readonly today: CivilDate }): ReactNode {
  const days = weekendOf(today);
  return (
    <>
      <p className="headline">Who rings whom on {sayDay(days[1] as CivilDate)}?</p>
      <Group
        title={`Due up to ${sayDay(days[2] as CivilDate)}, nobody named first`}
        rows={weekendList(rows, today)}
        today={today}
      />
    </>
  );
}

/** One sheet in visiting order, with the baselines and boxes to fill in a kitchen. */
function Round({ rows, today }: { readonly rows: readonly TodayRow[]; readonly today: CivilDate }): ReactNode {
  const { register } = useRecord();
  const round = homeRound(rows);
  if (round.length === 0) return <p className="soft">No line is at home.</p>;
  return (
    <table className="round">
      <caption>Home round, {sayDay(today)}. Baselines are those at the last tip reading.</caption>
      <thead>
        <tr>
          {["Visit", "Who", "Where", "Outside should be", "Found", "Arm was", "Due", "Blood returns"].map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {round.map((row, at) => {
          const line = lineOf(register.histories.get(row.subject) as Parameters<typeof lineOf>[0]);
          const patient = patientFor(register, row.patient);
          const arm = armOf(register, row);
          const girth = valueIn(line.said.circumferenceCm);
          const place = valueIn(line.said.circumferencePlaceCm);
          const baseline = line.tipCorrected ?? line.tip ?? line.placed;
          const outside = line.outside.find(({ event }) => event === baseline?.event.id);
          return (
            <tr key={row.subject}>
              <td>{row.visitOrder ?? at + 1}</td>
              <th scope="row">
                <Link href={`/line/${idOf(row.subject)}`}>{patient?.name ?? "name missing"}</Link>
                <br />
                no. {patient?.number || "missing"}
                <br />
                {arm ? armWords(arm) : "arm not known"}, <b>{sayRowState(row.release, row.suspected)}</b>
              </th>
              <td>{row.place}</td>
              <td className="figure-cell">{outside ? `${outside.value.toFixed(1)} cm` : "not known"}</td>
              <td className="box-cell">{"\u2003"}</td>
              <td>
                {girth === undefined
                  ? "not measured"
                  : `${girth.toFixed(1)} cm${place === undefined ? "" : `, ${place} cm above the crease`}`}
              </td>
              <td>
                {row.due
                  .filter(({ what }) => what !== "owner, place and date")
                  .slice(0, 2)
                  .map(({ what, on }) => `${sayDueWhat(what)} ${sayDay(on).slice(0, -5)}`)
                  .join(", ")}
              </td>
              <td className="box-cell">{"\u2003"}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
