/** A patient's number in 53 bits: fifteen digits, or ten letters and digits; both are told apart by the sign. */
const DIGIT_BASE = 11;
const MOST_DIGITS = 15;
const LETTER_BASE = 37;
const MOST_LETTERS = 10;
const SIGNS = "0123456789abcdefghijklmnopqrstuvwxyz";

/** 0 when the number is longer than can be held, or holds other signs: it is then compared with nothing. */
export function packNumber(key: string): number {
  const plain = /^\d+$/.test(key);
  if (key.length > (plain ? MOST_DIGITS : MOST_LETTERS)) return 0;
  let packed = 0;
  for (const sign of key) {
    const at = SIGNS.indexOf(sign);
    if (at < 0) return 0;
    packed = packed * (plain ? DIGIT_BASE : LETTER_BASE) + at + 1;
  }
  return plain ? packed : -packed;
}

export function unpackNumber(packed: number): string {
  const base = packed > 0 ? DIGIT_BASE : LETTER_BASE;
  let rest = Math.abs(packed);
  let key = "";
  while (rest > 0) {
    key = `${SIGNS[(rest % base) - 1]}${key}`;
    rest = Math.floor(rest / base);
  }
  return key;
}

/** Whether a packed number is one of so many digits, told from its size alone. */
export const hasDigits = (packed: number, digits: number): boolean =>
  packed >= DIGIT_BASE ** (digits - 1) && packed < DIGIT_BASE ** digits;

/** How a spreadsheet program writes a long number that it took for an amount: the last digits are lost. */
export const isInPowers = (number: string): boolean => /^\d(?:[.,]\d+E\+?|E\+)\d+$/i.test(number);

/** Shorter numbers are near each other by chance. */
const SHORTEST = 5;

/**
 * Whether two numbers differ by one slip of the hand: one sign another, two neighbours turned, or one sign more.
 * Source: the four slips of Damerau 1964, Commun ACM 7:171 (from memory). Example: 400123 and 400213 are near.
 */
export function isNear(a: string, b: string): boolean {
  if (a === b || Math.min(a.length, b.length) < SHORTEST || Math.abs(a.length - b.length) > 1) return false;
  let at = 0;
  while (at < a.length && a[at] === b[at]) at += 1;
  if (a.length !== b.length) {
    const [short, long] = a.length < b.length ? [a, b] : [b, a];
    return short.slice(at) === long.slice(at + 1);
  }
  if (a.slice(at + 1) === b.slice(at + 1)) return true;
  return a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2);
}

/**
 * Whether the tenth digit checks the nine before it.
 *   11 - (sum of digit x weight, weights 10 to 2, modulo 11) = tenth digit; 11 is written 0; 10 is never given out
 * Holds: ten digits. Source: NHS Data Dictionary, attribute NHS NUMBER (from memory). Example: 9434765919 keeps it.
 */
export function keepsCheckDigit(number: string): boolean {
  const sum = Array.from(number.slice(0, 9)).reduce((total, digit, at) => total + Number(digit) * (10 - at), 0);
  const check = (11 - (sum % 11)) % 11;
  return check === Number(number[9]);
}
