import type { KnownLine } from "./preview.ts";

/** Lines kept by an earlier import, by their key; undefined when the text is no such file. Nothing else of it is read. */
export function readKnownLines(text: string): ReadonlyMap<string, string> | undefined {
  try {
    const data = JSON.parse(text) as { readonly lines?: readonly Partial<KnownLine>[] } | null;
    if (!Array.isArray(data?.lines)) return undefined;
    const pairs = (data.lines as readonly (Partial<KnownLine> | null)[]).flatMap((line) =>
      typeof line?.key === "string" && typeof line.content === "string" ? [[line.key, line.content] as const] : [],
    );
    return new Map(pairs);
  } catch {
    return undefined;
  }
}
