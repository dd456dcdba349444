import * as z from "zod";
import { mayDo } from "../../register/index.ts";
import { Refusal } from "../http/refusal.ts";
import { TECHNICAL, trace } from "../people/people-parts.ts";
import { machine, reasonText } from "./answer-shape.ts";
import { route, type Route } from "./route.ts";

const MOST_ROWS = 500;
const opening = z.strictObject({
  id: z.string(),
  account: z.string(),
  patient: z.string(),
  reason: z.string(),
  openedAt: z.string(),
  untilAt: z.string(),
  reviewedBy: z.string(),
  reviewedAt: z.string(),
  finding: z.string(),
});
const trailRow = z.strictObject({
  position: z.int(),
  at: z.string(),
  account: z.string(),
  what: z.string(),
  subject: z.string(),
  detail: z.string(),
  address: z.string(),
  request: z.string(),
  chainHash: z.string(),
});

/** What is looked at afterwards, and the machine itself. */
export const reviewRoutes: readonly Route[] = [
  route({
    method: "GET",
    path: "/api/break-glass",
    asker: "review opened records",
    summary: "Records opened in need, the latest first",
    writes: false,
    status: 200,
    answer: z.strictObject({ opened: z.array(opening) }),
    refuses: [],
    run: async ({ parts }) => ({ body: { opened: await parts.people.glass.list() } }),
  }),
  route({
    method: "POST",
    path: "/api/break-glass/{id}/review",
    asker: "review opened records",
    summary: "Says what was found about an opening; never about one's own",
    writes: true,
    body: z.strictObject({ finding: reasonText }),
    status: 204,
    refuses: ["already-reviewed"],
    run: async ({ parts, from, signed, params, body }) => {
      const id = params["id"] ?? "";
      const { account } = signed.person;
      const done = await parts.people.glass.review(id, account, parts.now().toISOString(), body.finding);
      if (!done) throw new Refusal("already-reviewed");
      await trace(parts, from, account, "opening reviewed", "", id);
      return {};
    },
  }),
  route({
    method: "GET",
    path: "/api/trail",
    asker: "read the technical trail",
    summary: "The trail after a position; an administrator sees its technical lines, without subjects of care",
    writes: false,
    query: z.strictObject({
      after: z.coerce.number().int().min(0).max(2_000_000_000).default(0),
      limit: z.coerce.number().int().min(1).max(MOST_ROWS).default(200),
    }),
    status: 200,
    answer: z.strictObject({ rows: z.array(trailRow), upTo: z.int() }),
    refuses: [],
    run: async ({ parts, from, signed, query }) => {
      const page = await parts.people.trail.after(query.after, query.limit);
      const { account, roles } = signed.person;
      const rows = mayDo(roles, "read the trail") ? page : page.filter(({ what }) => TECHNICAL.has(what));
      await trace(parts, from, account, "trail read", "", `after ${query.after}`);
      return { body: { rows, upTo: page.at(-1)?.position ?? query.after } };
    },
  }),
  route({
    method: "POST",
    path: "/api/backup",
    asker: "keep the machine",
    summary: "Makes a backup now",
    writes: true,
    status: 200,
    answer: machine,
    refuses: ["not-set-up"],
    run: async ({ parts, from, signed }) => {
      if (!parts.backup) throw new Refusal("not-set-up");
      const said = await parts.backup();
      await trace(parts, from, signed.person.account, "backup made", "", said.good ? "good" : "not good");
      return { body: said };
    },
  }),
  route({
    method: "GET",
    path: "/api/backup",
    asker: "keep the machine",
    summary: "How the backups stand that the server makes by itself, once a day",
    writes: false,
    status: 200,
    answer: z.strictObject({
      folder: z.string(),
      keep: z.int(),
      count: z.int(),
      newestAt: z.string(),
      failed: z.string(),
      now: z.string(),
    }),
    refuses: ["not-set-up"],
    run: async ({ parts }) => {
      if (!parts.backups) throw new Refusal("not-set-up");
      return { body: { ...parts.backups(), now: parts.now().toISOString() } };
    },
  }),
  route({
    method: "GET",
    path: "/api/verify",
    asker: "keep the machine",
    summary: "Follows every chain from its start: the record's and the trail's",
    writes: false,
    status: 200,
    answer: machine,
    refuses: [],
    run: async ({ parts, from, signed }) => {
      const record = (await parts.verify?.()) ?? { good: true, lines: [] };
      const broken = await parts.people.trail.firstBroken();
      const trail = broken === undefined ? "trail: whole" : `trail: broken at ${broken}`;
      const good = record.good && broken === undefined;
      await trace(parts, from, signed.person.account, "verified", "", good ? "good" : "not good");
      return { body: { good, lines: [...record.lines, trail] } };
    },
  }),
];
