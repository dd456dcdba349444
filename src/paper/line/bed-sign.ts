import { bedWords, phoneWords, sayDay, sayLineFinding, sayMoment, sayRelease } from "../../language/index.ts";
import { GIVEN } from "../../register/index.ts";
import { lengthNow } from "./line-value.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import { atTheSkin } from "./skin-block.ts";
import { phoneOf } from "./phone-of.ts";
import type { Sheet } from "./sheet.ts";

/** What may go through this line, as known when it was printed, and what to do when the line looks otherwise. */
export function bedSign(input: PaperInput): Sheet {
  const { line, answer, policy, printedAt } = input;
  const { release, due } = answer;
  const uses = GIVEN.filter((use) => release.uses.includes(use));
  const off = GIVEN.filter((use) => !release.uses.includes(use));
  const dressing = due.find(({ what }) => what === "dressing");
  const outside = lengthNow(line, "outsideCm");
  const phone = phoneOf(input);
  return framed("bed sign", input, [
    { kind: "loud", text: sayRelease(release) },
    { kind: "list", numbered: false, items: release.findings.map(sayLineFinding) },
    {
      kind: "columns",
      shares: [1, 1],
      columns: [
        [
          { kind: "heading", text: bedWords.for },
          { kind: "list", numbered: false, items: uses.length > 0 ? uses : [bedWords.none] },
        ],
        [
          { kind: "heading", text: bedWords.notFor },
          { kind: "list", numbered: false, items: off.length > 0 ? off : [bedWords.none] },
        ],
      ],
    },
    {
      kind: "numbers",
      items: [
        { label: bedWords.outside, value: outside.value, note: outside.at ? sayMoment(outside.at) : outside.note },
        { label: bedWords.dressing, value: dressing ? sayDay(dressing.on) : "not known" },
        { label: bedWords.call, value: phone.number ?? phoneWords.missing, note: phone.who },
      ],
    },
    ...atTheSkin(line, bedWords.measure),
    { kind: "loud", text: bedWords.differs },
    { kind: "say", text: bedWords.known(release.knownAt ?? printedAt, policy.table["release.known-hours"].value) },
  ]);
}
