import { escaped, type Figure } from "./plate/index.ts";

/** How to hold and measure the arm: out at a right angle, turned out, elbow straight, tape along the inner side. */
export function armPose(): Figure {
  const sentence =
    "Arm out at a right angle, palm up, elbow straight. Tape from the inner bone of the elbow to the line of the armpit.";
  const svg = `<svg class="plate arm-pose" viewBox="0 0 320 190" role="img" aria-labelledby="pose-t"><title id="pose-t">${escaped(sentence)}</title>
<path class="contour" d="M20 34 C26 18 52 18 58 34 C60 46 52 58 50 66 C64 70 78 72 92 74 C150 76 196 80 240 82 C262 83 280 84 300 82"/>
<path class="contour" d="M28 66 C26 58 18 46 20 34"/>
<path class="contour" d="M78 176 C74 150 76 128 86 112 C120 112 180 112 240 108 C262 107 284 108 300 106"/>
<path class="contour" d="M300 82 C308 82 312 86 310 90 M310 90 C314 92 313 97 309 98 M309 98 C311 102 308 106 300 106"/>
<path class="flesh" d="M100 84 C150 86 200 90 240 90 M98 92 C150 94 200 97 240 97 M96 101 C150 103 200 103 240 101"/>
<line class="border" x1="88" x2="88" y1="96" y2="134"/><line class="border" x1="226" x2="226" y1="96" y2="134"/>
<path class="allowed" d="M88 128 H226"/><circle class="skin-mark" cx="226" cy="104" r="4"/>
<text class="label act" x="157" y="148">measure this</text>
<text class="region" x="92" y="168">line of the armpit</text><text class="region" x="246" y="148">inner bone</text><text class="region" x="246" y="164">of the elbow</text>
<text class="region" x="280" y="70">palm up</text></svg>`;
  return {
    svg,
    sentence,
    table: { columns: ["from", "to"], rows: [["inner bone of the elbow", "line of the armpit"]] },
  };
}
