import { minutesBetween, type Instant } from "../../core/calendar/index.ts";
import type { CultureLimits } from "../../core/complication/index.ts";
import { missing, type Maybe } from "../../core/missing/index.ts";
import { isInCava } from "../../core/tip/index.ts";
import { valueIn, type EntryOf, type Happening } from "../../register/index.ts";
import type { RowEvent, RowEventKind } from "./line-row.ts";
import { momentOfInstant } from "./moment-of-instant.ts";
import { pairedCultureOf } from "./paired-culture.ts";
import { SEEN_AT_REMOVAL } from "./seen-at-removal.ts";

const none = missing("not asked");
const MINUTES_A_DAY = 1440;

/**
 * What went wrong with a line, out of what was written about it, in order of time.
 *   infection            concluded, dated by the suspicion it answers; its paired cultures are those since the last one
 *   thrombosis           a clot seen by ultrasound
 *   occlusion            the first step of clearing, once for steps within a day; or out because blocked; cleared by the
 *                        first use or flush written after it
 *   migration            a tip read outside the cava after one inside, or out because the tip moved
 *   exit site infection  pus seen at the site, once
 * An infection or clot named only as the reason of removal is no event: the quality check asks for it.
 */
export function rowEventsOf(happenings: readonly Happening[], cultures: CultureLimits): readonly RowEvent[] {
  const events: RowEvent[] = [];
  /** The last block that nobody has seen cleared: the first use or flush after it says that the line runs again. */
  const runsAgain = (at: Instant): void => {
    const last = events.findLastIndex(({ kind }) => kind === "occlusion");
    const blocked = events[last];
    if (blocked && !blocked.clearedAt) events[last] = { ...blocked, clearedAt: momentOfInstant(at) };
  };
  const add = (kind: RowEventKind, at: Instant, flags: Partial<RowEvent> = {}): void => {
    events.push({ kind, at: momentOfInstant(at), clinical: none, surveillance: none, pairedCulture: none, ...flags });
  };
  let suspectedAt: Instant | undefined;
  let taken: EntryOf<"CulturesTaken">[] = [];
  let clearedAt: Instant | undefined;
  let wasInCava = false;
  let pusSeen = false;
  for (const { event, entry } of happenings) {
    const at = event.happenedAt;
    switch (event.type) {
      case "InfectionSuspected":
        suspectedAt ??= at;
        break;
      case "CulturesTaken":
        taken.push(entry);
        break;
      case "InfectionConcluded": {
        const said = entry as EntryOf<"InfectionConcluded">;
        add("infection", suspectedAt ?? at, {
          clinical: verdict(valueIn(said.clinical)),
          surveillance: verdict(valueIn(said.surveillance)),
          ...mucosalOf(valueIn(said.mucosalBarrier)),
          pairedCulture: pairedCultureOf(taken, cultures),
        });
        suspectedAt = undefined;
        taken = [];
        break;
      }
      case "ClotLookedFor":
        if (valueIn((entry as EntryOf<"ClotLookedFor">).ultrasound) === "clot seen") add("thrombosis", at);
        break;
      case "PatencyStepTaken":
        if (clearedAt === undefined || minutesBetween(clearedAt, at) > MINUTES_A_DAY) add("occlusion", at);
        clearedAt = at;
        break;
      case "TipRead": {
        const place = valueIn((entry as EntryOf<"TipRead">).tipPlace);
        if (place === undefined) break;
        if (wasInCava && !isInCava(place)) add("migration", at);
        wasInCava = isInCava(place);
        break;
      }
      case "LineUsed":
        runsAgain(at);
        break;
      case "CareGiven":
        if (valueIn((entry as EntryOf<"CareGiven">).flushed) === true) runsAgain(at);
        if (!pusSeen && valueIn((entry as EntryOf<"CareGiven">).site)?.includes("pus")) {
          add("exit site infection", at);
          pusSeen = true;
        }
        break;
      case "LineRemoved": {
        const kind = SEEN_AT_REMOVAL[valueIn((entry as EntryOf<"LineRemoved">).reason) ?? ""];
        const told = kind === "occlusion" && clearedAt && minutesBetween(clearedAt, at) <= MINUTES_A_DAY;
        const moved = kind === "migration" && events.some((one) => one.kind === "migration");
        if (kind && !told && !moved) add(kind, at);
        break;
      }
      default:
    }
  }
  return events;
}

/** An entry of before the question was asked says nothing of it. */
const mucosalOf = (word: "yes" | "no" | "not known" | undefined): Pick<RowEvent, "mucosal"> =>
  word === undefined ? {} : { mucosal: verdict(word) };

const verdict = (word: "yes" | "no" | "not known" | undefined): Maybe<boolean> =>
  word === "yes" ? true : word === "no" ? false : word === undefined ? none : missing("not known");
