/** "thrombosis=1.5,occlusion=4" as rates by measure; undefined for anything else. */
export function targetsOf(text: string): Readonly<Record<string, number>> | undefined {
  const parts = text
    .split(",")
    .map((part) => part.trim())
    .filter(Boolean);
  const read = parts.map((part) => part.split("="));
  return read.every(([name, rate]) => name && Number(rate) > 0)
    ? Object.fromEntries(read.map(([name, rate]) => [name as string, Number(rate)]))
    : undefined;
}
