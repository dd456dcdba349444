import * as z from "zod";
import { RIGHTS, mayDo, writableTypes, type Action } from "../../register/index.ts";
import { sessionCookie } from "../http/session-cookie.ts";
import { Refusal } from "../http/refusal.ts";
import { choosePassword } from "../people/account.ts";
import { trace } from "../people/people-parts.ts";
import { beginSecondFactor, turnOffSecondFactor, turnOnSecondFactor } from "../people/second-factor.ts";
import { begin, endOf, idleMinutes, signIn, type Signed } from "../people/sign-in.ts";
import type { ServerParts } from "../server-parts.ts";
import { me, secretText } from "./answer-shape.ts";
import { route, type Route } from "./route.ts";

const code = z.string().max(40);
const OUTSIDE_COOKIE = "veinwright-outside";

/** Signing in and out, and what a person changes about their own account. */
export const signInRoutes: readonly Route[] = [
  route({
    method: "POST",
    path: "/api/sign-in",
    asker: "anyone",
    summary: "Signs in with account, password and, where it is on, the second factor",
    writes: true,
    body: z.strictObject({ account: z.string().max(200), password: secretText, code: code.default("") }),
    status: 200,
    answer: me,
    refuses: ["wrong-sign-in", "second-factor-wanted"],
    run: async ({ parts, from, body }) => {
      const { token, signed } = await signIn(parts, from, body);
      return { body: meOf(parts, signed), headers: cookieOf(parts, token) };
    },
  }),
  route({
    method: "POST",
    path: "/api/sign-out",
    asker: "signed in",
    summary: "Ends the session",
    writes: true,
    status: 204,
    refuses: [],
    beforeChange: true,
    run: async ({ parts, from, signed }) => {
      await parts.people.sessions.end(signed.session.tokenHash);
      await trace(parts, from, signed.person.account, "signed out");
      return { headers: cookieOf(parts, "") };
    },
  }),
  route({
    method: "GET",
    path: "/api/me",
    asker: "signed in",
    summary: "Who is signed in, and what they may do",
    writes: false,
    status: 200,
    answer: me,
    refuses: [],
    beforeChange: true,
    run: async ({ parts, signed }) => ({ body: meOf(parts, signed) }),
  }),
  route({
    method: "POST",
    path: "/api/password",
    asker: "signed in",
    summary: "Chooses a password of one's own; other sessions of the account end",
    writes: true,
    body: z.strictObject({ password: z.string().max(1000), next: secretText }),
    status: 204,
    refuses: [],
    beforeChange: true,
    run: async ({ parts, from, signed, body }) => {
      await choosePassword(parts, from, signed, body);
      return {};
    },
  }),
  route({
    method: "POST",
    path: "/api/second-factor",
    asker: "signed in",
    summary: "Gives a secret for an authenticator",
    writes: true,
    body: z.strictObject({ password: z.string().max(1000) }),
    status: 200,
    answer: z.strictObject({ secret: z.string(), uri: z.string() }),
    refuses: ["second-factor-on"],
    run: async ({ parts, signed, body }) => ({ body: await beginSecondFactor(parts, signed, body.password) }),
  }),
  route({
    method: "POST",
    path: "/api/second-factor/on",
    asker: "signed in",
    summary: "Turns the second factor on with a first code, and gives the recovery codes once",
    writes: true,
    body: z.strictObject({ code }),
    status: 200,
    answer: z.strictObject({ recoveryCodes: z.array(z.string()) }),
    refuses: ["second-factor-on"],
    run: async ({ parts, from, signed, body }) => ({
      body: { recoveryCodes: await turnOnSecondFactor(parts, from, signed, body.code) },
    }),
  }),
  route({
    method: "POST",
    path: "/api/second-factor/off",
    asker: "signed in",
    summary: "Turns the second factor off, where the password is long enough alone",
    writes: true,
    body: z.strictObject({ password: z.string().max(1000), code }),
    status: 204,
    refuses: ["password-too-short"],
    run: async ({ parts, from, signed, body }) => {
      await turnOffSecondFactor(parts, from, signed, body);
      return {};
    },
  }),
  route({
    method: "GET",
    path: "/api/openid/start",
    asker: "anyone",
    summary: "Sends the browser to the sign-in of the house",
    writes: false,
    status: 302,
    refuses: ["not-set-up"],
    run: async ({ parts }) => {
      if (!parts.outside) throw new Refusal("not-set-up");
      const { url, key } = await parts.outside.begin(parts.now().getTime());
      // lax, because the browser comes back from another site; it is good once and for ten minutes
      const cookie = `${OUTSIDE_COOKIE}=${key}; Path=/api/openid; HttpOnly; SameSite=Lax; Max-Age=600`;
      return { status: 302, headers: { location: url, "set-cookie": parts.secure ? `${cookie}; Secure` : cookie } };
    },
  }),
  route({
    method: "GET",
    path: "/api/openid/answer",
    asker: "anyone",
    summary: "Takes the browser back from the sign-in of the house; signs in the account it stands for",
    writes: false,
    status: 302,
    refuses: ["not-set-up", "outside-sign-in"],
    run: async ({ parts, from, request }) => {
      if (!parts.outside) throw new Refusal("not-set-up");
      const key = (request.headers.get("cookie") ?? "").match(/(?:^|;\s*)veinwright-outside=([^;]+)/)?.[1] ?? "";
      const who = await parts.outside.end(key, new URL(request.url).search, parts.now().getTime());
      const known = who && (await parts.people.persons.findByOpenId(who.issuer, who.subject));
      if (!known || known.disabled) {
        await trace(parts, from, known?.account ?? "", "sign-in refused");
        throw new Refusal("outside-sign-in");
      }
      const { token } = await begin(parts, from, known);
      return { status: 302, headers: { location: "/", ...cookieOf(parts, token) } };
    },
  }),
];

const cookieOf = ({ secure, limits }: ServerParts, token: string) => ({
  "set-cookie": sessionCookie(token, secure, limits.sessionHours * 3600),
});

function meOf({ limits }: ServerParts, { person, session }: Signed): z.infer<typeof me> {
  return {
    account: person.account,
    roles: [...person.roles],
    units: [...person.units],
    actions: (Object.keys(RIGHTS) as Action[]).filter((action) => mayDo(person.roles, action)),
    mayWrite: [...writableTypes(person.roles)],
    changeWanted: person.changeWanted,
    secondFactor: person.codeOn,
    endsAt: endOf(session, limits),
    idleMinutes: idleMinutes(person, limits),
  };
}
