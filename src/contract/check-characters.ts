const CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const RADIX = 36;
const MODULUS = 1271;

/**
 * The two check characters of a text of digits and capital letters, by ISO/IEC 7064 MOD 1271-36:
 * the sum of a(i) * 36^(i-1), counted from the right with the check characters in it, is 1 modulo 1271.
 * Catches every single wrong character and every swap of two neighbours: neither a difference of at most 35 nor 35 times
 * one is a multiple of 1271. Of texts that are wrong altogether it lets one in 1271 through.
 * Throws a RangeError for any other sign. Source: ISO/IEC 7064:2003, section 8.2. Example: checkCharacters("ISO79") is "3W".
 */
export function checkCharacters(text: string): string {
  const check = (MODULUS + 1 - sumOf(`${text}00`)) % MODULUS;
  return CHARACTERS.charAt(Math.floor(check / RADIX)) + CHARACTERS.charAt(check % RADIX);
}

/** Whether a text agrees with its last two characters. */
export const checkHolds = (text: string): boolean => sumOf(text) === 1;

function sumOf(text: string): number {
  let sum = 0;
  for (const sign of text) {
    const value = CHARACTERS.indexOf(sign);
    if (value < 0) throw new RangeError(`${sign} is neither a digit nor a capital letter`);
    sum = (sum * RADIX + value) % MODULUS;
  }
  return sum;
}
