/** Lines made from a seed for comparisons with a slow twin: the same seed gives the same lines everywhere. */
export interface GeneratedLines {
  readonly entry: number[];
  readonly exit: number[];
  readonly end: number[];
  readonly group: number[];
  readonly patient: number[];
  readonly covariates: number[][];
}

/** A 32-bit generator, uniform on 0 to 1. Source: Steele GL and others 2014, OOPSLA (mixing constants, from memory). */
export function uniformFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * Exits from exponential hazards that two covariates move, three kinds of end and censoring.
 * `grain` rounds times up to its multiples and so makes ties; with `late`, half of the lines enter late.
 */
export function generatedLines(
  seed: number,
  rows: number,
  options: { grain?: number; late?: boolean } = {},
): GeneratedLines {
  const uniform = uniformFrom(seed);
  const lines: GeneratedLines = { entry: [], exit: [], end: [], group: [], patient: [], covariates: [[], []] };
  for (let i = 0; i < rows; i += 1) {
    const binary = uniform() < 0.4 ? 1 : 0;
    const scale = uniform() * 4 - 2;
    const group = Math.floor(uniform() * 3);
    const wait = (-Math.log(1 - uniform()) * 20) / Math.exp(0.5 * binary - 0.3 * scale + 0.2 * group);
    const grain = options.grain ?? 0;
    const exit = grain > 0 ? Math.max(1, Math.ceil(wait / grain)) * grain : wait;
    const kind = uniform();
    lines.exit.push(exit);
    lines.end.push(kind < 0.35 ? 1 : kind < 0.6 ? 2 : kind < 0.7 ? 3 : 0);
    const share = uniform();
    const late = options.late === true && uniform() < 0.5;
    lines.entry.push(late ? (grain > 0 ? Math.floor((share * exit * 0.99) / grain) * grain : share * exit) : 0);
    lines.group.push(group);
    lines.patient.push(Math.floor(uniform() * rows * 0.7));
    (lines.covariates[0] as number[]).push(binary);
    (lines.covariates[1] as number[]).push(scale);
  }
  return lines;
}
