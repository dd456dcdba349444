import type { LinePaperName } from "../../register/index.ts";
import { armProtection } from "./arm-protection.ts";
import { bedSign } from "./bed-sign.ts";
import { cultureCard } from "./culture-card.ts";
import { filmSlip } from "./film-slip.ts";
import { homeSheet } from "./home-sheet.ts";
import type { PaperInput } from "./paper-input.ts";
import { patientCard } from "./patient-card.ts";
import { pictureCard } from "./picture-card.ts";
import { recallLetter } from "./recall-letter.ts";
import { recordForm } from "./record-form.ts";
import { removalSlip } from "./removal-slip.ts";
import type { Sheet } from "./sheet.ts";

/** How each paper is set, under the name the record issues it by. */
const SHEETS = {
  "record form": recordForm,
  "film slip": filmSlip,
  "bed sign": bedSign,
  "patient card": patientCard,
  "picture card": pictureCard,
  "home sheet": homeSheet,
  "culture card": cultureCard,
  "removal slip": removalSlip,
  "recall letter": recallLetter,
  "arm-protection note": armProtection,
} as const satisfies Readonly<Record<LinePaperName, (input: PaperInput) => Sheet>>;

/** One paper of a line as words, numbers and drawings; pure, so the printer and the page show the same. */
export const linePaper = (paper: LinePaperName, input: PaperInput): Sheet => SHEETS[paper](input);
