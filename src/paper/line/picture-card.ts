import { armPicture, bloodInTube, shivering, telephone, thickArm, wetDressing } from "../../figure/index.ts";
import { armWords, cardWords, dangerSigns, pictureSentences, thickArmWords } from "../../language/index.ts";
import { confirmedIn } from "../../register/index.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import { phoneOf } from "./phone-of.ts";
import type { Sheet } from "./sheet.ts";

const WIDTH_MM = 76;

/** The card in pictures, in the order of the words, for whoever does not read this language. */
export function pictureCard(input: PaperInput): Sheet {
  const { line, answer, issue } = input;
  const arm = answer.sides.agree ? confirmedIn(line.said.arm) : undefined;
  const [wet, blood, thick, shiver, phone] = [
    wetDressing("wet", pictureSentences.wet),
    bloodInTube("blood", pictureSentences.blood),
    thickArm("thick", thickArmWords, pictureSentences.thick),
    shivering("shiver", pictureSentences.shiver),
    telephone("phone", pictureSentences.phone),
  ];
  const words = arm ? armWords(arm) : "";
  const items = [
    ...(arm
      ? [{ figure: armPicture("arm", arm, words, pictureSentences.arm(words)), said: [words, dangerSigns.arm[1]] }]
      : []),
    { figure: wet, said: dangerSigns.wet },
    { figure: blood, said: dangerSigns.blood },
    { figure: thick, said: dangerSigns.thick },
    { figure: shiver, said: dangerSigns.shiver },
    { figure: phone, said: [phoneOf(input).number ?? pictureSentences.phoneMissing, dangerSigns.phone[1]] },
  ];
  return framed("picture card", input, [
    {
      kind: "pictures",
      items: items.map(({ figure, said }, at) => ({
        drawing: { svg: figure.svg, alt: figure.sentence, widthMm: WIDTH_MM },
        title: `${at + 1}. ${said[0]}`,
        words: said[1] ?? "",
      })),
    },
    { kind: "soft", text: cardWords.replaces(issue) },
  ]);
}
