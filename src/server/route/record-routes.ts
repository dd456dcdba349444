import * as z from "zod";
import type { StoredEvent } from "../../register/index.ts";
import { Refusal } from "../http/refusal.ts";
import { trace } from "../people/people-parts.ts";
import { confirm } from "../people/sign-in.ts";
import { takeOffers } from "../record/take-offers.ts";
import type { ServerParts } from "../server-parts.ts";
import { identifier, reasonText, storedEvent } from "./answer-shape.ts";
import { route, type Route } from "./route.ts";

const MOST_EVENTS = 500;
const place = z.coerce.number().int().min(0).max(2_000_000_000);
const events = z.array(storedEvent);
const banner = z.strictObject({ until: z.string(), reason: z.string() });
const answer = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("accepted"), events, version: z.int() }),
  z.strictObject({ kind: z.literal("moved on"), version: z.int(), since: events }),
  z.strictObject({
    kind: z.literal("refused"),
    code: z.enum(["wrong-content-hash", "id-stands-for-other-content"]),
    id: z.string(),
  }),
]);

/** The record: copied by devices, added to, and opened one patient at a time. */
export const recordRoutes: readonly Route[] = [
  route({
    method: "GET",
    path: "/api/head",
    asker: "copy the record",
    summary: "Where the record ends",
    writes: false,
    status: 200,
    answer: z.strictObject({ position: z.int(), chainHash: z.string() }),
    refuses: ["own-unit-only"],
    run: async ({ parts, signed }) => {
      wholeService(signed.person.units);
      const { position, chainHash } = await parts.store.head();
      return { body: { position, chainHash } };
    },
  }),
  route({
    method: "GET",
    path: "/api/events",
    asker: "copy the record",
    summary: "Events in the order the store took them, after a position",
    writes: false,
    query: z.strictObject({
      after: place.default(0),
      limit: z.coerce.number().int().min(1).max(MOST_EVENTS).default(200),
    }),
    status: 200,
    answer: z.strictObject({ events }),
    refuses: ["own-unit-only"],
    run: async ({ parts, from, signed, query }) => {
      wholeService(signed.person.units);
      const found = await parts.store.readAfter(query.after, query.limit);
      const last = found.at(-1);
      if (last)
        await trace(parts, from, signed.person.account, "record copied", "", `${query.after} to ${last.position}`);
      return { body: { events: found } };
    },
  }),
  route({
    method: "POST",
    path: "/api/offers",
    asker: "offer entries",
    summary: "Offers entries; taken whole or not at all, and sent twice changes nothing",
    writes: true,
    body: z
      .array(
        z.strictObject({
          subject: z.string().max(80),
          expectedVersion: place,
          events: z
            .array(
              z.record(z.string(), z.unknown()).meta({ description: "A sealed event, as the catalogue describes it" }),
            )
            .min(1)
            .max(MOST_EVENTS),
        }),
      )
      .min(1)
      .max(100),
    status: 200,
    answer: z.strictObject({ answers: z.array(answer) }),
    refuses: [],
    run: async ({ parts, from, signed, body }) => ({
      body: { answers: await takeOffers(parts, from, signed.person, body) },
    }),
  }),
  route({
    method: "GET",
    path: "/api/record/{patient}",
    asker: "open one record",
    summary: "Everything about one patient, of one's own wards or opened in need",
    writes: false,
    status: 200,
    answer: z.strictObject({ banner: banner.nullable(), events }),
    refuses: ["not-found", "own-unit-only"],
    run: async ({ parts, from, signed, params }) => {
      const patient = params["patient"] ?? "";
      const { account, units } = signed.person;
      const ward = await parts.patients.wardOf(patient);
      const own = units.length === 0 || (ward !== undefined && units.includes(ward));
      const opened = own ? undefined : await parts.people.glass.open(account, patient, parts.now().toISOString());
      // the same answer for a patient of another ward and for none: nobody learns by asking who is here
      if (!own && !opened) throw new Refusal("own-unit-only");
      const found = await recordOf(parts, patient);
      await trace(parts, from, account, "record opened", `patient:${patient}`, opened ? "in need" : "");
      return { body: { banner: opened ? { until: opened.untilAt, reason: opened.reason } : null, events: found } };
    },
  }),
  route({
    method: "POST",
    path: "/api/break-glass",
    asker: "open a record in need",
    summary: "Opens one patient's record in need, with a reason; the lead reviews it",
    writes: true,
    body: z.strictObject({ patient: identifier, reason: reasonText, password: z.string().max(1000) }),
    status: 201,
    answer: z.strictObject({ id: z.string(), banner, events }),
    refuses: ["not-found"],
    run: async ({ parts, from, signed, body }) => {
      await confirm(parts, signed, body.password);
      const found = await recordOf(parts, body.patient);
      const { people, limits, now, newId } = parts;
      const { account } = signed.person;
      const id = newId();
      const untilAt = new Date(now().getTime() + limits.openInNeedHours * 3_600_000).toISOString();
      const { patient, reason } = body;
      await people.glass.add({
        id,
        account,
        patient,
        reason,
        openedAt: now().toISOString(),
        untilAt,
        reviewedBy: "",
        reviewedAt: "",
        finding: "",
      });
      await trace(parts, from, account, "record opened in need", `patient:${patient}`, id);
      return { body: { id, banner: { until: untilAt, reason }, events: found } };
    },
  }),
  route({
    method: "GET",
    path: "/api/stock",
    asker: "see stock",
    summary: "Every event of a box of catheters and of the service; no patient",
    writes: false,
    query: z.strictObject({ after: place.default(0) }),
    status: 200,
    answer: z.strictObject({ events, upTo: z.int() }),
    refuses: [],
    run: async ({ parts, query }) => {
      const found: StoredEvent[] = [];
      let upTo = query.after;
      for (;;) {
        const page = await parts.store.readAfter(upTo, MOST_EVENTS);
        found.push(...page.filter(({ subject }) => /^(lot|service):/.test(subject)));
        upTo = page.at(-1)?.position ?? upTo;
        if (page.length < MOST_EVENTS) return { body: { events: found, upTo } };
      }
    },
  }),
];

/** A device's copy is the whole record in one chain: an account of some wards opens one record at a time. */
function wholeService(units: readonly string[]): void {
  if (units.length > 0) throw new Refusal("own-unit-only");
}

async function recordOf({ patients }: ServerParts, patient: string): Promise<readonly StoredEvent[]> {
  const found = await patients.eventsOf(patient);
  if (found.length === 0) throw new Refusal("not-found");
  return found;
}
