import { practiceCharts, practicePatients, practiceReferrals } from "../../practice/index.ts";
import type { Command } from "./command.ts";

/** Prints a practice patient's case, to plan or to change; without a name, the list. */
export const practiceCommand: Command = {
  name: "practice",
  summary: "Print a practice patient's case, referral or chart, or list them.",
  usage: "veinwright practice [NAME]",
  readsFile: false,
  run: ({ argument }) => {
    if (argument === "")
      return {
        exit: 0,
        output: [...practicePatients, ...practiceReferrals, ...practiceCharts]
          .map(({ id, title }) => `${id.padEnd(20)}${title}`)
          .join("\n"),
      };
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
