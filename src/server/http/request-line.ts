/** One line of the log: what was asked of which route and how it ended. Nothing a person typed is in it. */
export interface RequestLine {
  readonly at: string;
  readonly request: string;
  readonly method: string;
  /** The pattern of the route, never the path: a path may hold an identifier. */
  readonly route: string;
  readonly status: number;
  readonly ms: number;
}

const METHODS = new Set(["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"]);

/** As a line of NDJSON; a method nobody knows is text somebody typed. */
export const requestLine = (line: RequestLine): string =>
  JSON.stringify({ ...line, method: METHODS.has(line.method) ? line.method : "other" });
