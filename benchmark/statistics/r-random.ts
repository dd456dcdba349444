import { normalQuantile } from "../../src/core/distribution/index.ts";

const WORDS = 624;
const SHIFT = 397;
/** One below two to the 32nd, inverted, as R scales its words. */
const SCALE = 2.3283064365386963e-10;
/** R draws a normal from two words so that its tails are not cut. */
const BIG = 134217728;

/**
 * The random numbers of R (3.6 and later) in its default kinds, so that a simulation published as an R script can be
 * made again without R: Mersenne Twister, inversion, rejection.
 * Source: Matsumoto M, Nishimura T 1998, ACM Trans Model Comput Simul 8:3; Ahrens JH, Dieter U 1972, Commun ACM 15:873
 * (exponential); R's own manual page "Random" (all from memory). The file that `simulatedLines` makes has the checksum
 * of the one R makes.
 */
export class RandomOfR {
  private readonly word = new Uint32Array(WORDS);
  private next = WORDS;

  constructor(seed: number) {
    let state = seed >>> 0;
    const turn = () => (state = (Math.imul(69069, state) + 1) >>> 0);
    for (let k = 0; k < 50; k += 1) turn();
    turn(); // the place in the words, which R then sets itself
    for (let k = 0; k < WORDS; k += 1) this.word[k] = turn();
  }

  /** Uniform, strictly between 0 and 1. */
  uniform(): number {
    if (this.next === WORDS) this.refill();
    let y = this.word[this.next] as number;
    this.next += 1;
    y ^= y >>> 11;
    y ^= (y << 7) & 0x9d2c5680;
    y ^= (y << 15) & 0xefc60000;
    y ^= y >>> 18;
    const value = (y >>> 0) * SCALE;
    return value <= 0 ? SCALE / 2 : value;
  }

  /** 1 with the chance given, else 0. */
  chance(chance: number): number {
    const rare = Math.min(chance, 1 - chance);
    const seen = this.uniform() < 1 - rare ? 0 : 1;
    return chance > 0.5 ? 1 - seen : seen;
  }

  /** One of the codes, which are tried in the order given: R tries the likeliest first. */
  oneOf(likeliestFirst: readonly (readonly [code: number, chance: number])[]): number {
    const value = this.uniform();
    let sum = 0;
    for (const [code, chance] of likeliestFirst) {
      sum += chance;
      if (value <= sum) return code;
    }
    return (likeliestFirst.at(-1) as readonly [number, number])[0];
  }

  normal(mean: number, deviation: number): number {
    const first = Math.trunc(BIG * this.uniform());
    return mean + deviation * normalQuantile((first + this.uniform()) / BIG);
  }

  /** Exponential of rate one. */
  exponential(): number {
    let whole = 0;
    let value = this.uniform() * 2;
    for (; value <= 1; value *= 2) whole += PARTS[0] as number;
    value -= 1;
    if (value <= (PARTS[0] as number)) return whole + value;
    let least = this.uniform();
    let k = 0;
    do {
      least = Math.min(least, this.uniform());
      k += 1;
    } while (value > (PARTS[k] as number));
    return whole + least * (PARTS[0] as number);
  }

  private refill(): void {
    const { word } = this;
    for (let k = 0; k < WORDS; k += 1) {
      const y = ((word[k] as number) & 0x80000000) | ((word[(k + 1) % WORDS] as number) & 0x7fffffff);
      word[k] = (word[(k + SHIFT) % WORDS] as number) ^ (y >>> 1) ^ ((y & 1) === 0 ? 0 : 0x9908b0df);
    }
    this.next = 0;
  }
}

/** Sums of (ln 2)^k / k!, of which the exponential takes as many as it needs. */
const PARTS = Array.from({ length: 16 }, (_, last) => {
  let sum = 0;
  for (let k = 1, term = Math.LN2; k <= last + 1; k += 1, term *= Math.LN2 / k) sum += term;
  return sum;
});
