/** What a typed number turned out to be. An empty field is an absence, not a zero. */
export type NumberReading =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "empty" }
  | { readonly kind: "not known" }
  | { readonly kind: "thousands separator" }
  | { readonly kind: "not a number" };

/**
 * Reads a number as people type it: decimal comma or point, never a thousands separator.
 * "1.234" is refused as well as "1,234": three digits after a mark could be either, and nobody measures a vein so finely.
 * Example: "3,7" is 3.7; "1.234,5" is refused; "n/k" is not known.
 */
export function readNumber(text: string): NumberReading {
  const trimmed = text.trim();
  if (trimmed === "") return { kind: "empty" };
  if (/^(n\/?k|not known|\?)$/i.test(trimmed)) return { kind: "not known" };
  if (/^-?\d{1,3}([.,\s'’]\d{3})+([.,]\d+)?$/.test(trimmed)) return { kind: "thousands separator" };
  if (!/^-?\d+([.,]\d+)?$/.test(trimmed)) return { kind: "not a number" };
  return { kind: "number", value: Number(trimmed.replace(",", ".")) };
}
