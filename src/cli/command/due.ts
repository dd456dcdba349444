import { readDueText, type DueQuestion } from "../../contract/index.ts";
import { civilDateOf } from "../../core/calendar/index.ts";
import { careDue, judgeHandover, weekendList } from "../../core/care/index.ts";
import { dueSentence, ownerWords, safetyStatement, sayDay, sayFinding, sayMoment } from "../../language/index.ts";
import { careLimitsFrom, defaultPolicy } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const limits = careLimitsFrom(defaultPolicy.table);

/** What is due on each line, by date, place and person; or the list for the days off. A patient who leaves is held to all three. */
export const dueCommand: Command = {
  name: "due",
  summary: "Say what care is due on each line, or over the days off.",
  usage: "veinwright due DUE.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readDueText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "due file");
    return reading.data.weekend ? weekend(reading.data, json) : lines(reading.data, json);
  },
};

function lines({ asOf, lines: all }: DueQuestion, json: boolean): { readonly exit: Exit; readonly output: string } {
  const answers = all.map(({ care, leaving }) => ({
    line: care.id,
    owner: ownerWords(care),
    due: careDue(care, asOf, limits),
    handover: leaving === undefined ? [] : judgeHandover(leaving, care, civilDateOf(asOf)),
  }));
  const stopped = answers.some(({ handover }) => handover.some(({ level }) => level === "stop"));
  const open = answers.some(({ due }) => due.some((one) => one.state === "not known" || one.stateNotAsked));
  const exit: Exit = stopped ? 3 : open ? 2 : 0;
  if (json) return { exit, output: JSON.stringify({ policyVersion: defaultPolicy.version, asOf, answers }, null, 2) };
  const said = answers.flatMap(({ line, owner, due, handover }) => [
    `${line} (${owner}):`,
    ...handover.map((one) => `- ${sayFinding(one)}`),
    ...due.map((one) => `- ${dueSentence(one)}`),
  ]);
  return { exit, output: [`As of ${sayMoment(asOf)}.`, ...said, "", safetyStatement].join("\n") };
}

function weekend(
  { asOf, lines: all, holidays }: DueQuestion,
  json: boolean,
): { readonly exit: Exit; readonly output: string } {
  const list = weekendList(
    all.map(({ care }) => care),
    asOf,
    holidays,
    limits,
  );
  const exit: Exit = list.some(({ lacks }) => lacks.length > 0) ? 2 : 0;
  if (json) return { exit, output: JSON.stringify({ policyVersion: defaultPolicy.version, asOf, list }, null, 2) };
  const said = list.map(({ due, on }) => `- ${sayDay(on)}, ${ownerWords(due)}, ${due.lineId}: ${dueSentence(due)}`);
  const none = ["Nothing is due on days off that follow this day."];
  return {
    exit,
    output: [`Made ${sayMoment(asOf)}.`, ...(list.length > 0 ? said : none), "", safetyStatement].join("\n"),
  };
}
