/** Numbers that look random and are the same in every run: the Park-Miller generator with Schrage's multiplier 48271. */
export function seededNumbers(seed: number): {
  readonly share: () => number;
  readonly whole: (from: number, to: number) => number;
} {
  let state = seed;
  const share = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  for (let turn = 0; turn < 5; turn += 1) share();
  return { share, whole: (from, to) => from + Math.floor(share() * (to - from + 1)) };
}
