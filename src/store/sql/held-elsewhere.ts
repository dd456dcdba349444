/** SQLITE_BUSY and SQLITE_LOCKED (https://sqlite.org/rescode.html, from memory); higher bits tell their kind. */
const BUSY: ReadonlySet<number> = new Set([5, 6]);
const KIND = 0xff;
/** PostgreSQL, appendix A: lock_not_available and object_in_use (from memory). */
const HELD: ReadonlySet<string> = new Set(["55P03", "55006"]);

/** Whether a database refused because another process holds it; of an error of either driver of SQLite, or of PostgreSQL. */
export function isHeldElsewhere(error: unknown): boolean {
  if (typeof error !== "object" || error === null) return false;
  const { errcode, code } = error as { readonly errcode?: unknown; readonly code?: unknown };
  return (
    (typeof errcode === "number" && BUSY.has(errcode & KIND)) ||
    (typeof code === "string" && (/^SQLITE_(BUSY|LOCKED)/.test(code) || HELD.has(code)))
  );
}
