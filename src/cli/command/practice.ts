import { addDays } from "../../core/calendar/index.ts";
import { practiceCharts, practicePatients, practiceRecord, practiceReferrals } from "../../practice/index.ts";
import type { Command } from "./command.ts";

/** The events of the invented service up to yesterday, so that none lies ahead: what `case`, `card` and `paper` read. */
const RECORD = { id: "record", title: "Twelve lines, for case, card and paper" };

/** Prints a practice patient's case, to plan or to change; without a name, the list. */
export const practiceCommand: Command = {
  name: "practice",
  summary: "Print a practice patient's case, referral or chart, the record's events, or the list.",
  usage: "veinwright practice [NAME]",
  readsFile: false,
  run: ({ argument, today, moment }) => {
    if (argument === "")
      return {
        exit: 0,
        output: [...practicePatients, ...practiceReferrals, ...practiceCharts, RECORD]
          .map(({ id, title }) => `${id.padEnd(20)}${title}`)
          .join("\n"),
      };
    if (argument === RECORD.id)
      return { exit: 0, output: JSON.stringify(practiceRecord(addDays(today, -1), moment.slice(-6)), null, 2) };
    const patient = practicePatients.find(({ id }) => id === argument);
    const referral = practiceReferrals.find(({ id }) => id === argument);
    if (referral) return { exit: 0, output: JSON.stringify(referral.referral, null, 2) };
    const chart = practiceCharts.find(({ id }) => id === argument);
    if (chart) return { exit: 0, output: JSON.stringify(chart.chart, null, 2) };
    if (!patient)
      return { exit: 64, output: `No practice patient "${argument}". Run \`veinwright practice\` for the list.` };
    return { exit: 0, output: JSON.stringify(patient.planCase, null, 2) };
  },
};
