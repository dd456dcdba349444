import { addDays, dayNumber, instantMs, weekday, type CivilDate } from "../../core/calendar/index.ts";
import type { Subject } from "../event/index.ts";
import type { LineAnswer, LineDue, LineView, LyticLook } from "../line/index.ts";

/** A line as a list of the day needs it: what stands, what is due first, who and where. */
export interface TodayRow {
  readonly subject: Subject;
  readonly patient: string | undefined;
  readonly place: string;
  readonly owner: string;
  readonly setting: "ward" | "home" | undefined;
  readonly visitOrder: number | undefined;
  readonly release: LineAnswer["release"]["state"];
  readonly due: readonly LineDue[];
  readonly firstDueDay: number;
  readonly asks: number;
  readonly stops: number;
  readonly released: boolean;
  /** An infection is suspected and nobody has concluded it: somebody is to be called, released or not. */
  readonly suspected: boolean;
  /** The next look for blood after a dose of lytic, while it is open. */
  readonly look: LyticLook | undefined;
}

/** The row of a line that is in; undefined for one that is out or was never placed. */
export function todayRow(line: LineView, answer: LineAnswer, looks: readonly LyticLook[]): TodayRow | undefined {
  if (!line.placed || (line.end && line.end.kind !== "unknown")) return undefined;
  const findings = [...answer.need, ...answer.release.findings];
  return {
    subject: line.subject,
    patient: line.patient,
    place: line.owner?.place ?? "",
    owner: line.owner?.owner ?? "",
    setting: line.owner?.setting,
    visitOrder: line.owner?.visitOrder,
    release: answer.release.state,
    due: answer.due,
    firstDueDay: answer.due[0] ? dayNumber(answer.due[0].on) : Number.MAX_SAFE_INTEGER,
    asks: findings.filter(({ level }) => level === "ask").length,
    stops: findings.filter(({ level }) => level === "stop").length,
    released: line.released !== undefined,
    suspected: answer.need.some(({ code }) => code === "line-infection-suspected"),
    look: looks[0],
  };
}

export interface Today {
  /** May not be used, or not believed: the most urgent first. */
  readonly notToUse: readonly TodayRow[];
  /** Placed and never released: the afternoon's question. */
  readonly notReleased: readonly TodayRow[];
  /** Nobody owns it, or nobody has seen it. */
  readonly unowned: readonly TodayRow[];
  readonly dueNow: readonly TodayRow[];
  readonly stillNeeded: readonly TodayRow[];
  readonly rest: number;
}

/** The lines of a day by need; a line stands once, under the gravest of its reasons. Linear in the lines. */
export function todayList(rows: readonly TodayRow[], today: CivilDate): Today {
  const now = dayNumber(today);
  const groups: { [Key in Exclude<keyof Today, "rest">]: TodayRow[] } = {
    notToUse: [],
    notReleased: [],
    unowned: [],
    dueNow: [],
    stillNeeded: [],
  };
  let rest = 0;
  for (const row of rows) {
    if (row.owner === "" || row.place === "") groups.unowned.push(row);
    else if (!row.released) groups.notReleased.push(row);
    else if (row.release !== "may be used" || row.suspected) groups.notToUse.push(row);
    else if (row.firstDueDay <= now || row.look) groups.dueNow.push(row);
    else if (row.asks > 0) groups.stillNeeded.push(row);
    else rest += 1;
  }
  // a look has its minute; what is due by the day comes after it
  const lookMs = ({ look }: TodayRow) => (look ? instantMs(look.at) : Number.MAX_SAFE_INTEGER);
  const byDue = (a: TodayRow, b: TodayRow) => lookMs(a) - lookMs(b) || a.firstDueDay - b.firstDueDay;
  for (const group of Object.values(groups)) group.sort(byDue);
  return { ...groups, rest };
}

/** Saturday to Monday as seen from a day: the coming weekend, or the one that is now. */
export function weekendOf(today: CivilDate): readonly CivilDate[] {
  const untilSaturday = (5 - weekday(today) + 7) % 7;
  const saturday = weekday(today) === 6 ? addDays(today, -1) : addDays(today, untilSaturday);
  return [saturday, addDays(saturday, 1), addDays(saturday, 2)];
}

/** Lines with anything due up to the end of the weekend: those with no named person first. */
export function weekendList(rows: readonly TodayRow[], today: CivilDate): readonly TodayRow[] {
  const last = dayNumber(weekendOf(today)[2] as CivilDate);
  return rows
    .filter(({ firstDueDay, due }) => firstDueDay <= last || due.some(({ on }) => dayNumber(on) <= last))
    .sort((a, b) => Number(a.owner !== "") - Number(b.owner !== "") || a.firstDueDay - b.firstDueDay);
}

/** The home round in visiting order: what a person set comes first, the rest by place. */
export const homeRound = (rows: readonly TodayRow[]): readonly TodayRow[] =>
  rows
    .filter(({ setting }) => setting === "home")
    .sort(
      (a, b) =>
        (a.visitOrder ?? Number.MAX_SAFE_INTEGER) - (b.visitOrder ?? Number.MAX_SAFE_INTEGER) ||
        (a.place < b.place ? -1 : a.place > b.place ? 1 : 0),
    );
