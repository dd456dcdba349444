/** What an event may hold: the values JSON has, and nothing else. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/**
 * The one text a value has: keys in the order of their UTF-16 code units, shortest numbers, no space. Two machines that
 * hold the same value hash the same bytes. Keys whose value is undefined are left out, as JSON does.
 * Throws a RangeError for a number JSON cannot write (NaN, Infinity) and for a lone surrogate.
 * Source: RFC 8785 sections 3.2.2 and 3.2.3; numbers as ECMAScript writes them, which 3.2.2.3 asks for.
 * Example: canonicalJson({ b: 1.0, a: "é" }) is {"a":"é","b":1}.
 */
export function canonicalJson(value: unknown): string {
  switch (typeof value) {
    case "string":
      if (LONE_SURROGATE.test(value)) throw new RangeError("a text with half a character has no canonical form");
      return JSON.stringify(value);
    case "number":
      if (!Number.isFinite(value)) throw new RangeError("a number that is not finite has no canonical form");
      return JSON.stringify(value);
    case "boolean":
      return value ? "true" : "false";
    case "object": {
      if (value === null) return "null";
      if (Array.isArray(value)) return `[${value.map(canonicalJson).join(",")}]`;
      const members = value as Readonly<Record<string, unknown>>;
      return `{${Object.keys(members)
        .filter((key) => members[key] !== undefined)
        .sort(byCodeUnit)
        .map((key) => `${canonicalJson(key)}:${canonicalJson(members[key])}`)
        .join(",")}}`;
    }
    case "bigint":
    case "function":
    case "symbol":
    case "undefined":
    default:
      throw new RangeError(`${typeof value} has no canonical form`);
  }
}

const LONE_SURROGATE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;
const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
