import type * as z from "zod";
import type { Action } from "../../register/index.ts";
import type { RefusalCode } from "../../language/index.ts";
import type { From } from "../people/people-parts.ts";
import type { Signed } from "../people/sign-in.ts";
import type { ServerParts } from "../server-parts.ts";

/** Who may ask: anyone, whoever is signed in, or who holds the action. */
export type Asker = Action | "anyone" | "signed in";

/** A request that has passed every guard and been read. */
export interface Call<Body, Query> {
  readonly parts: ServerParts;
  readonly from: From;
  /** There whenever the route asks for somebody signed in. */
  readonly signed: Signed;
  readonly body: Body;
  readonly query: Query;
  readonly params: Readonly<Record<string, string>>;
  readonly request: Request;
}

export interface Given {
  readonly body?: unknown;
  readonly status?: 302;
  readonly headers?: Readonly<Record<string, string>>;
}

/** One route as data: its table is what the server serves, what the document says and what the tests walk. */
export interface Route {
  readonly method: "GET" | "POST";
  /** With its parameters in braces, "/api/people/{account}". */
  readonly path: string;
  readonly asker: Asker;
  readonly summary: string;
  /** Whether it changes something: then only this program's page may send it. */
  readonly writes: boolean;
  readonly query?: z.ZodObject;
  readonly body?: z.ZodType;
  readonly status: 200 | 201 | 204 | 302;
  readonly answer?: z.ZodType;
  /** Refusals of its own, beside those every route has. */
  readonly refuses: readonly RefusalCode[];
  /** A one-time password is enough: how else would it be changed? */
  readonly beforeChange?: true;
  readonly run: (call: Call<unknown, unknown>) => Promise<Given>;
}

/** Ties what a route reads to what it runs with. */
export function route<Body extends z.ZodType = z.ZodUndefined, Query extends z.ZodObject = z.ZodObject<{}>>(
  described: Omit<Route, "run" | "body" | "query"> & {
    readonly body?: Body;
    readonly query?: Query;
    readonly run: (call: Call<z.infer<Body>, z.infer<Query>>) => Promise<Given>;
  },
): Route {
  return described as unknown as Route;
}
