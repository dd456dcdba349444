const ONES = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"] as const;
const TEENS = [
  "ten",
  "eleven",
  "twelve",
  "thirteen",
  "fourteen",
  "fifteen",
  "sixteen",
  "seventeen",
  "eighteen",
  "nineteen",
] as const;
const TENS = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"] as const;

const UNITS: Readonly<Record<string, readonly [one: string, more: string]>> = {
  mm: ["millimetre", "millimetres"],
  cm: ["centimetre", "centimetres"],
  kg: ["kilogram", "kilograms"],
  lb: ["pound", "pounds"],
  mL: ["millilitre", "millilitres"],
  "%": ["per cent", "per cent"],
};

function wholeWords(value: number): string {
  if (value < 10) return ONES[value] as string;
  if (value < 20) return TEENS[value - 10] as string;
  if (value < 100) {
    const ones = value % 10;
    return `${TENS[Math.floor(value / 10)]}${ones === 0 ? "" : `-${ONES[ones]}`}`;
  }
  const rest = value % 100;
  return `${ONES[Math.floor(value / 100)]} hundred${rest === 0 ? "" : ` and ${wholeWords(rest)}`}`;
}

/**
 * A number as it is read back across a room: "three point seven". Digits after the point are said one by one.
 * Undefined from a thousand up and below zero, where nobody at the bedside reads a number back.
 */
export function numberWords(value: number): string | undefined {
  if (!(value >= 0 && value < 1000)) return undefined;
  const [whole, decimals] = String(value).split(".") as [string, string | undefined];
  if (/e/.test(String(value))) return undefined;
  const said = wholeWords(Number(whole));
  return decimals
    ? `${said} point ${decimals
        .split("")
        .map((digit) => ONES[Number(digit)])
        .join(" ")}`
    : said;
}

/** The echo beside a field where a slip would hurt: "three point seven millimetres". */
export function amountWords(value: number, unit: string): string | undefined {
  const said = numberWords(value);
  const name = UNITS[unit];
  return said && name ? `${said} ${value === 1 ? name[0] : name[1]}` : undefined;
}
