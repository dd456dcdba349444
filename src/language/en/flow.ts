import type {
  CarryAnswer,
  FlowRegime,
  LumenAnswered,
  MixingAnswer,
  SectionAnswer,
  ShearThinningFlow,
  VeinAnswer,
} from "../../core/flow/index.ts";

const share = (value: number): string => `${(100 * value).toFixed(0)}\u202f%`;

/** Every word that stands on or beside the flow figures. */
export const flowWords = {
  section: (v: {
    readonly ratio: number;
    readonly offset: number;
    readonly flow: number;
    readonly slow: number;
    readonly diameterMm: number;
  }) => ({
    sentence: `A catheter of ${share(v.ratio)} of the ${v.diameterMm.toFixed(1)} mm vein, ${placeWords(v.offset)}, leaves ${share(v.flow)} of the flow.`,
    withCatheter: `with the catheter: ${share(v.flow)} of the flow`,
    open: "the open vein: 100\u202f%",
    columns: ["", "with the catheter", "open vein"],
  }),
  rows: (v: {
    readonly ratio: number;
    readonly slow: number;
    readonly openSlow: number;
    readonly slowBelow: number;
    readonly flow: number;
    readonly fastest: number;
  }): string[][] => [
    ["flow", share(v.flow), share(1)],
    ["width taken", share(v.ratio), share(0)],
    ["area taken", share(v.ratio ** 2), share(0)],
    ["fastest blood, times the open mean", v.fastest.toFixed(2), "2.00"],
    [`blood slower than ${share(v.slowBelow)} of that mean`, share(v.slow), share(v.openSlow)],
  ],
  curve: (v: { readonly veinMm: number; readonly low: number; readonly high: number }) => ({
    sentence: `What each size leaves of the flow, by the width of the vein. This vein: ${v.veinMm.toFixed(1)} mm, by its readings ${v.low.toFixed(1)} to ${v.high.toFixed(1)}.`,
    own: `this vein ${v.veinMm.toFixed(1)} mm`,
    axis: "inside diameter of the vein, mm; flow left, of the open vein",
    columns: ["size", "of the width", "flow left, centred", "flow left, touching"],
  }),
} as const;

function placeWords(offset: number): string {
  if (offset < 0.01) return "in the middle";
  return offset > 0.99 ? "leaning on the wall" : `${share(offset)} of the way to the wall`;
}

/** What the flow model is, said beside every number it gives. */
export const flowModelSentence =
  "A model: a stiff round vein at the same pressure. Real veins stretch and have side ways. It compares sizes; it permits nothing.";

/** Why 45 % of the width is not half of the flow, from the two numbers. */
export const whyNotHalf = (ratio: number, centred: number, touching: number): string =>
  `${share(ratio)} of the width is ${share(ratio ** 2)} of the area, and leaves ${share(centred)} to ${share(touching)} of the flow: blood sticks to both walls.`;

/** What one more French costs, in one sentence. */
export const oneMoreFrench = (
  now: { readonly centred: number; readonly touching: number },
  more: { readonly centred: number; readonly touching: number } | undefined,
): string =>
  more
    ? `One French more: from ${share(now.centred)} to ${share(now.touching)} left, down to ${share(more.centred)} to ${share(more.touching)}.`
    : "One French more would fill the vein.";

const one = (value: number): string => value.toFixed(value < 10 ? 1 : 0);

/** The vein's answer as lines to read aloud; the pair always, the model always. */
export function veinFlowLines(answer: VeinAnswer): readonly string[] {
  const { pair, band, assumptions, sensitivity, veinWallShear, slowOfBlood, openSlow, oneFrenchMore } = answer;
  const ends =
    band && band.narrow.kind === "flow" && band.wide.kind === "flow"
      ? [
          `By the doubt of the reading: ${share(band.narrow.centred)} to ${share(band.wide.centred)} centred, ${share(band.narrow.touching)} to ${share(band.wide.touching)} touching.`,
        ]
      : band
        ? ["By the doubt of the reading the catheter may fill the vein."]
        : [];
  return [
    `Flow left: ${share(pair.centred)} in the middle, ${share(pair.touching)} leaning on the wall.`,
    whyNotHalf(pair.ratio, pair.centred, pair.touching),
    ...ends,
    `One per cent more vein is ${(-sensitivity).toFixed(1)} per cent more flow.`,
    `Same pressure: ${share(assumptions.equalGradient)}. The stretch as a part of the way: ${share(assumptions.seriesResistance)}. No way round: ${one(assumptions.gradientAtEqualFlow)} times the pressure.`,
    `Shear on the vein's wall: ${share(veinWallShear)} of the open vein's. Slow blood: ${share(slowOfBlood)}, open ${share(openSlow)}.`,
    oneMoreFrench(pair, oneFrenchMore),
    flowModelSentence,
  ];
}

export const flowRefusal: Readonly<Record<string, string>> = {
  "the catheter fills the vein": "The catheter fills the vein: nothing is left to compute. Choose a smaller one.",
  "a diameter is not above zero": "A diameter must be above zero. Measure again.",
  "walls thicker than the bore": "The walls are thicker than the bore. Check wall and septum.",
  "a measure is not above zero": "A measure must be above zero.",
  "the number of lumens is not one to six": "One to six lumens can be computed.",
  "cut longer than the catheter": "It is cut longer than the catheter is. Check both lengths.",
  "more cut away than the label holds": "More is cut away than the label holds. Check the bore.",
  "no measured figure": "No measured viscosity is known for this fluid. Nothing is guessed.",
  "measured at another temperature only": "Its viscosity was measured at another temperature only (37 degrees).",
};

const regimeSentence: Readonly<Record<FlowRegime, string>> = {
  laminar: "The flow is laminar: the law holds.",
  "may not be laminar": "The flow may not be laminar: the figure may be too high.",
  "not laminar": "The flow is not laminar: the figure is too high. Read the label.",
};

const lumenModelSentence = "Model, teaching only. The label beats it; contrast is answered only by a label.";

const mixingSentence = "Mean mixing only; the wall sees more. This never permits peripheral use.";

/** What the general solver found of an oval vein, or of several catheters in one. */
export const crowdedSentence = (answer: SectionAnswer): string =>
  answer.kind === "refused"
    ? `As drawn it cannot be: ${answer.reason}.`
    : `As drawn, with its shape and the others: ${share(answer.relativeFlow)} of the open vein, ${answer.reached ? "to" : "no nearer than"} ${answer.errorBound.toExponential(0)}.`;

/** Whether a catheter carries a rate, by its label or by the model. */
export function carrySentence(answer: CarryAnswer): string {
  if (answer.kind === "refused") return flowRefusal[answer.reason] ?? answer.reason;
  const most = `${answer.most.toFixed(0)} mL/h`;
  const verdict = answer.carries ? "yes" : "no";
  if (answer.kind === "label")
    return `${verdict}: its label says ${most}${answer.thickerThanWater ? ", for a thinner fluid" : ""}`;
  return `${verdict}: ${most} a lumen (model, teaching only${answer.regime === "laminar" ? "" : "; too high"})`;
}

/** What the correction for blood that thins with shear changes. */
export const thinningSentence = ({ shearThinning, newtonian }: ShearThinningFlow): string =>
  `Blood thins with shear: ${(100 * shearThinning).toFixed(1)}\u202f% centred, where the plain model says ${(100 * newtonian).toFixed(1)}\u202f%.`;

const gravityTestSentence = (millilitresPerMinute: number): string =>
  `In the open standard's gravity test it would show ${millilitresPerMinute.toFixed(0)} mL/min (its conditions from memory).`;

const syringeSentence = (kilopascals: number): string =>
  `Pressed on the blocked line, this syringe gives ${kilopascals.toFixed(0)} kPa.`;

const trimmedSentence = (millilitres: number): string =>
  `After the cut one lumen holds ${millilitres.toFixed(2)} mL, by its label.`;

/** What one lumen carries, as lines; shared by the command and the page. */
export function lumenFlowLines(answer: LumenAnswered, fluid: string): readonly string[] {
  const { flow, lumen, priming, figures, trimmed, syringeKilopascal } = answer;
  return [
    flow.flow > 0
      ? `One lumen carries ${(flow.flow * 60).toFixed(0)} mL/h of ${fluid} (${flow.flow.toFixed(1)} mL/min). ${regimeSentence[flow.regime]}`
      : "Nothing flows: the vein presses as hard as the bag. Hang it higher.",
    `Reynolds number ${flow.reynolds.toFixed(0)}. Lumen area ${lumen.area.toFixed(3)} mm2, volume ${priming.toFixed(2)} mL without the hub.`,
    `Viscosity ${figures.viscosity.toFixed(2)} mPa.s (${figures.howKnown}: ${figures.source}).`,
    gravityTestSentence(answer.gravityTestMlPerMinute),
    ...(trimmed
      ? [
          trimmed.kind === "volume"
            ? trimmedSentence(trimmed.volumeMl)
            : (flowRefusal[trimmed.reason] ?? trimmed.reason),
        ]
      : []),
    ...(syringeKilopascal === undefined ? [] : [syringeSentence(syringeKilopascal)]),
    lumenModelSentence,
  ];
}

/** The buffer value holds for small shifts only. */
const SMALL_SHIFT = 0.3;

/** What reaches the blood after mixing, as lines; it never permits. */
export function mixingLines(
  { mixed, neededFlow, acidity }: MixingAnswer,
  limit: number | undefined,
): readonly string[] {
  const osmolarity = (value: number) => `${value.toFixed(0)} mOsm/L`;
  return [
    `After mixing: ${osmolarity(mixed.wholeBlood)}; in plasma only ${osmolarity(mixed.plasmaOnly)}; at the wall, undiluted, ${osmolarity(mixed.undiluted)}.`,
    ...(neededFlow === undefined
      ? []
      : [
          neededFlow === "none"
            ? `No flow is enough to stay under ${limit} mOsm/L.`
            : `To stay under ${limit} mOsm/L the mean needs ${neededFlow.toFixed(1)} mL/min of blood.`,
        ]),
    ...(acidity === undefined
      ? []
      : [
          acidity.kind === "undiluted"
            ? "No blood flows: nothing buffers the fluid."
            : Math.abs(acidity.change) > SMALL_SHIFT
              ? "The shift of pH is larger than buffering can tell. No number is given."
              : `The blood's pH moves by ${acidity.change.toFixed(3)}: buffering, not averaging.`,
        ]),
    mixingSentence,
  ];
}
