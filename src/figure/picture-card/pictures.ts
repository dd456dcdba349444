import type { Side } from "../../core/arm/index.ts";
import { element, escaped, type Figure } from "../plate/index.ts";
import { contour, filled, hatched, picture, PICTURE_WIDTH, solid, tube } from "./engraving.ts";

const word = (x: number, y: number, text: string, size: number, bold = true): string =>
  element(
    "text",
    { x, y, "text-anchor": "middle", "font-size": size, "font-weight": bold ? 700 : undefined, fill: "#000" },
    escaped(text),
  );

const ARM = "M136 57 C154 56 165 68 168 84 L178 126 C179 137 165 138 161 129 L147 92 C146 78 143 66 136 57 Z";
const mirrored = (markup: string): string =>
  element("g", { transform: `translate(${PICTURE_WIDTH} 0) scale(-1 1)` }, markup);

/** Head and trunk from behind. */
const trunk = (id: string): string =>
  [
    solid(
      "M95 44 V55 C84 58 76 57 72 58 C74 92 76 112 74 140 H146 C144 112 146 92 148 58 C144 57 136 58 125 55 V44 Z",
      1.6,
    ),
    hatched(id, "M118 60 C132 60 144 58 148 58 C146 92 144 112 146 140 H132 C134 108 128 84 118 60 Z"),
    solid("M110 8 C124 8 131 18 130 30 C129 42 120 50 110 50 C100 50 91 42 90 30 C89 18 96 8 110 8 Z", 1.6),
    hatched(id, "M110 8 C124 8 131 18 130 30 C129 42 122 48 116 49 C124 36 122 18 110 8 Z", "dense"),
  ].join("");

/** Both arms kept, for the note over the bed. */
export function bothArmsPicture(id: string, sentence: string): Figure {
  const arm = solid(ARM, 2.2) + hatched(id, ARM, "dense");
  return picture(id, sentence, trunk(id), arm, mirrored(arm));
}

/** Which arm, as the patient looks out: seen from behind, so the right arm is on the right. */
export function armPicture(id: string, side: Side, words: string, sentence: string): Figure {
  const dressing =
    solid("M153 74 L167 71.5 L170 86 L156 89 Z", 1.4) +
    contour("M162 80 C168 92 182 92 186 102", 2.2) +
    filled("M184 101 L191 104 L188 111 L181 107 Z");
  const chosen = solid(ARM, 2.2) + hatched(id, ARM, "dense") + dressing;
  const other = solid(ARM, 1.4);
  const [right, left] = side === "right" ? [chosen, mirrored(other)] : [other, mirrored(chosen)];
  return picture(
    id,
    sentence,
    trunk(id),
    right,
    left,
    word(side === "right" ? 182 : 38, 30, words.split(" ")[0] ?? "", 15),
    word(side === "right" ? 182 : 38, 46, words.split(" ")[1] ?? "", 15),
  );
}

const FOREARM = "M0 42 C60 32 150 36 220 46 L220 112 C150 124 60 122 0 112 Z";
const UNDERSIDE = "M0 92 C60 106 150 108 220 94 L220 112 C150 124 60 122 0 112 Z";
const drop = (x: number, y: number, size: number): string =>
  solid(
    `M${x} ${y} c ${-size} ${size * 1.5} ${-size} ${size * 2.4} 0 ${size * 2.4} c ${size} 0 ${size} ${-size * 0.9} 0 ${-size * 2.4} Z`,
    1.3,
  );

/** A dressing that is wet or comes loose. */
export function wetDressing(id: string, sentence: string): Figure {
  return picture(
    id,
    sentence,
    solid(FOREARM),
    hatched(id, UNDERSIDE),
    contour("M98 76 C120 84 150 96 196 138", 4.4),
    solid("M62 52 H140 C146 52 148 56 148 60 V82 L132 102 H66 C60 102 58 98 58 94 V58 C58 54 60 52 62 52 Z", 1.8),
    hatched(id, "M66 84 C84 78 100 94 124 86 L140 92 L132 102 H66 C60 102 58 98 58 94 V86 Z", "dense"),
    solid("M148 82 C142 86 136 92 132 102 C146 98 156 92 162 80 C156 82 152 82 148 82 Z", 1.6),
    hatched(id, "M148 84 C142 88 137 94 134 101 C142 98 150 95 155 88 Z", "cross"),
    drop(78, 108, 5),
    drop(98, 114, 6.5),
    drop(119, 108, 5),
  );
}

/** Blood standing in the tube. */
export function bloodInTube(id: string, sentence: string): Figure {
  return picture(
    id,
    sentence,
    solid("M0 22 C24 26 40 32 52 44 L30 132 C20 128 10 126 0 126 Z"),
    hatched(id, "M0 96 C14 98 26 102 36 108 L30 132 C20 128 10 126 0 126 Z"),
    tube("M34 78 C80 30 112 128 176 78", 17),
    element("path", {
      d: "M40 73 C78 38 104 104 140 96",
      fill: "none",
      stroke: "#000",
      "stroke-width": 9,
      "stroke-linecap": "butt",
    }),
    solid("M12 58 L46 50 L52 92 L18 100 Z", 1.7),
    solid("M168 66 L186 56 L200 84 L182 94 Z", 1.8),
    solid("M188 62 L206 53 L214 70 L197 79 Z", 1.8),
    hatched(id, "M194 72 L211 63 L214 70 L197 79 Z", "dense"),
  );
}

const tape = (x: number, top: number, bottom: number): string => {
  const ticks = Array.from({ length: 6 }, (_, at) => {
    const y = top + ((at + 0.5) * (bottom - top)) / 6;
    return contour(`M${x - 5} ${y} H${x + 1}`, 1);
  });
  return `${solid(`M${x - 6} ${top - 1} C${x - 1} ${top + 8} ${x - 1} ${bottom - 8} ${x - 6} ${bottom + 1} L${x + 6} ${bottom + 1} C${x + 11} ${bottom - 8} ${x + 11} ${top + 8} ${x + 6} ${top - 1} Z`, 1.4)}${ticks.join("")}`;
};

/** The same arm before, and thicker now. */
export function thickArm(
  id: string,
  words: { readonly before: string; readonly now: string },
  sentence: string,
): Figure {
  return picture(
    id,
    sentence,
    solid("M40 14 C90 8 150 10 220 16 V48 C150 54 90 54 40 48 Z"),
    hatched(id, "M40 38 C90 44 150 46 220 38 V48 C150 54 90 54 40 48 Z"),
    tape(128, 11, 51),
    solid("M40 78 C80 62 140 58 220 70 V134 C140 150 80 146 40 128 Z", 2),
    hatched(id, "M40 112 C80 126 140 132 220 112 V134 C140 150 80 146 40 128 Z", "dense"),
    tape(128, 63, 144),
    word(19, 36, words.before, 13, false),
    word(19, 108, words.now, 15),
  );
}

/** A person under a blanket who shivers, and a thermometer. */
export function shivering(id: string, sentence: string): Figure {
  const shake = (x: number, way: 1 | -1): string =>
    contour(
      `M${x} 40 c ${6 * way} 6 ${-6 * way} 12 0 18 c ${6 * way} 6 ${-6 * way} 12 0 18 c ${6 * way} 6 ${-6 * way} 12 0 18`,
      1.8,
    );
  return picture(
    id,
    sentence,
    solid("M44 148 C44 104 60 84 84 78 C96 76 112 76 124 78 C148 84 164 104 164 148 Z", 1.8),
    hatched(id, "M44 148 C44 104 60 84 84 78 C92 92 82 120 84 148 Z"),
    hatched(id, "M124 78 C148 84 164 104 164 148 H122 C132 124 134 98 124 78 Z", "dense"),
    contour("M84 78 C96 96 112 96 124 78", 1.6),
    contour("M104 92 C102 110 106 128 103 148", 1.2),
    solid("M104 14 C120 14 129 26 128 42 C127 60 116 72 104 72 C92 72 81 60 80 42 C79 26 88 14 104 14 Z", 1.8),
    hatched(id, "M118 19 C126 24 129 32 128 42 C127 58 118 69 108 72 C120 58 124 38 118 19 Z"),
    contour("M90 40 l7 3 M111 43 l7 -3", 2),
    contour("M93 58 l4 -3 l4 3 l4 -3 l4 3 l4 -3", 1.8),
    shake(62, -1),
    shake(146, 1),
    shake(50, -1),
    solid("M196 18 a6 6 0 0 1 12 0 V104 a12 12 0 1 1 -12 0 Z", 1.8),
    filled("M200 44 h4 V106 a8 8 0 1 1 -4 0 Z"),
    contour("M208 30 h6 M208 44 h6 M208 58 h6 M208 72 h6 M208 86 h6", 1.2),
  );
}

/** A telephone that is taken up. */
export function telephone(id: string, sentence: string): Figure {
  return picture(
    id,
    sentence,
    solid(
      "M58 120 C58 100 72 92 84 88 H136 C148 92 162 100 162 120 C162 130 158 136 150 136 H70 C62 136 58 130 58 120 Z",
      1.8,
    ),
    hatched(id, "M120 88 H136 C148 92 162 100 162 120 C162 130 158 136 150 136 H124 C136 124 134 102 120 88 Z"),
    solid("M110 96 a15 15 0 1 0 0.1 0 Z", 1.5),
    solid("M110 106 a5 5 0 1 0 0.1 0 Z", 1.4),
    solid(
      "M34 66 C30 48 44 36 62 36 L64 50 C86 42 134 42 156 50 L158 36 C176 36 190 48 186 66 C184 74 174 76 164 72 L154 66 C128 58 92 58 66 66 L56 72 C46 76 36 74 34 66 Z",
      1.9,
    ),
    hatched(id, "M158 36 C176 36 190 48 186 66 C184 74 174 76 164 72 C174 62 172 46 158 36 Z", "dense"),
    hatched(id, "M66 60 C92 52 128 52 154 60 L154 66 C128 58 92 58 66 66 Z"),
    contour("M96 26 C104 20 116 20 124 26", 2),
    contour("M86 16 C100 6 120 6 134 16", 2),
  );
}
