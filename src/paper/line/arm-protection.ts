import { bothArmsPicture } from "../../figure/index.ts";
import { parseCivilDate } from "../../core/calendar/index.ts";
import {
  armProtectionNote,
  bothArms,
  paperNameMissing,
  pictureSentences,
  protectWords,
  sayIdentifiers,
  sayPage,
  sayRecorded,
} from "../../language/index.ts";
import { patientEvents, type EntryOf, type PatientView } from "../../register/index.ts";
import { framed, framedList, isPractice, type PaperInput } from "./paper-input.ts";
import type { Block, Sheet } from "./sheet.ts";

/** The note to hang over the bed of a person whose arm veins may be needed for dialysis; a line is not needed for it. */
export const armProtection = (input: PaperInput): Sheet => ({
  ...framed("arm-protection note", input, noteBlocks(input.patient)),
  arm: bothArms,
});

/** The same note for a person who has no line. */
export const armProtectionFor = (patient: PatientView, input: Pick<PaperInput, "policy" | "printedAt">): Sheet => ({
  ...framedList(
    "arm-protection note",
    {
      name: patient.name || paperNameMissing,
      identifiers: sayIdentifiers(patient.number, parseCivilDate(patient.bornOn)),
      practice: isPractice(patient),
      page: sayPage(1, 1),
    },
    input,
    noteBlocks(patient),
  ),
  arm: bothArms,
});

function noteBlocks(patient: PatientView | undefined): readonly Block[] {
  const details: EntryOf<"PatientRegistered"> = patient?.details ?? {};
  const bars = patient?.barred ?? [];
  const dialysis = sayRecorded(patientEvents.PatientRegistered.onDialysis, details.onDialysis);
  const arms = bothArmsPicture("both", pictureSentences.both);
  return [
    ...armProtectionNote.map((text) => ({ kind: "loud", text }) as const),
    {
      kind: "columns",
      shares: [1.25, 1, 0.95],
      columns: [
        [
          { kind: "heading", text: protectWords.never },
          { kind: "list", numbered: false, items: protectWords.neverItems },
        ],
        [
          { kind: "heading", text: protectWords.may },
          { kind: "list", numbered: false, items: protectWords.mayItems },
        ],
        [{ kind: "drawing", drawing: { svg: arms.svg, alt: arms.sentence, widthMm: 50 }, caption: "" }],
      ],
    },
    { kind: "heading", text: protectWords.because },
    {
      kind: "list",
      numbered: false,
      items: [
        protectWords.eGfr(`eGFR ${sayRecorded(patientEvents.PatientRegistered.eGfr, details.eGfr)}`),
        `${protectWords.dialysis}: ${dialysis}.`,
        ...(bars.length > 0 ? bars.map(({ arm, why }) => protectWords.barred(arm, why)) : [protectWords.notAsked]),
      ],
    },
    { kind: "loud", text: protectWords.ask },
  ];
}
