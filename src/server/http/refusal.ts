import * as z from "zod";
import { REFUSAL_CODES, sayServerRefusal, type RefusalCode } from "../../language/index.ts";

const STATUS: Readonly<Record<RefusalCode, RefusalStatus>> = {
  "sign-in-wanted": 401,
  "wrong-sign-in": 401,
  "second-factor-wanted": 401,
  "not-allowed": 403,
  "password-change-wanted": 403,
  "not-from-this-page": 403,
  "own-unit-only": 403,
  "outside-sign-in": 403,
  "not-found": 404,
  "not-set-up": 404,
  "account-taken": 409,
  "identity-taken": 409,
  "roles-do-not-fit": 409,
  "last-administrator": 409,
  "own-account": 409,
  "second-factor-on": 409,
  "password-too-short": 409,
  "already-reviewed": 409,
  "too-large": 413,
  "not-json": 415,
  "wrong-address": 421,
  faults: 422,
  "too-many": 429,
  "self-test": 500,
  "went-wrong": 500,
};
export type RefusalStatus = 401 | 403 | 404 | 409 | 413 | 415 | 421 | 422 | 429 | 500;

/** Where a fault is and which; never the value. */
export interface ToldFault {
  readonly path: string;
  readonly code: string;
}

/** A request that is turned back: thrown by whoever finds the reason, answered in one place. */
export class Refusal extends Error {
  readonly code: RefusalCode;
  readonly faults: readonly ToldFault[];
  readonly retryAfterSeconds: number | undefined;

  constructor(
    code: RefusalCode,
    more: { readonly faults?: readonly ToldFault[]; readonly retryAfterSeconds?: number } = {},
  ) {
    super(code);
    this.code = code;
    this.faults = more.faults ?? [];
    this.retryAfterSeconds = more.retryAfterSeconds;
  }

  get status(): RefusalStatus {
    return statusOf(this.code);
  }
}

export const statusOf = (code: RefusalCode): RefusalStatus => STATUS[code];

/** Every refusal's body. Source: RFC 9457 sections 3 and 3.2. */
export const problem = z.strictObject({
  type: z.literal("about:blank"),
  title: z.string(),
  status: z.int(),
  code: z.enum(REFUSAL_CODES as readonly [RefusalCode, ...RefusalCode[]]),
  request: z.string(),
  faults: z.array(z.strictObject({ path: z.string(), code: z.string() })).optional(),
});

/** The answer to a refusal, as application/problem+json. */
export function problemResponse(refusal: Refusal, request: string): Response {
  const { code, status, faults, retryAfterSeconds } = refusal;
  const body = {
    type: "about:blank",
    title: sayServerRefusal(code),
    status,
    code,
    request,
    ...(faults.length > 0 || code === "faults" ? { faults } : {}),
  };
  return Response.json(body, {
    status,
    headers: {
      "content-type": "application/problem+json",
      ...(retryAfterSeconds === undefined ? {} : { "retry-after": String(retryAfterSeconds) }),
    },
  });
}
