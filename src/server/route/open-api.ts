import * as z from "zod";
import type { RefusalCode } from "../../language/index.ts";
import { problem, statusOf } from "../http/refusal.ts";
import { route, type Route } from "./route.ts";

/** What any route may be refused for, by how it is asked. */
export function refusalsOf({ asker, writes, body, query, refuses, beforeChange }: Route): readonly RefusalCode[] {
  const inside = asker !== "anyone";
  return [
    ...refuses,
    ...(inside ? (["sign-in-wanted"] as const) : []),
    ...(inside && asker !== "signed in" ? (["not-allowed"] as const) : []),
    ...(inside && !beforeChange ? (["password-change-wanted"] as const) : []),
    ...(writes ? (["not-from-this-page"] as const) : []),
    ...(body ? (["too-large", "not-json"] as const) : []),
    ...(body || query ? (["faults"] as const) : []),
    "wrong-address",
    "too-many",
  ];
}

/** The document of the server, made from the same shapes that read the requests. Source: OpenAPI 3.1.0. */
export function documentRoute(routes: readonly Route[]): Route {
  let made: object | undefined;
  const itself: Route = route({
    method: "GET",
    path: "/api/openapi.json",
    asker: "anyone",
    summary: "This document",
    writes: false,
    status: 200,
    answer: z.looseObject({ openapi: z.literal("3.1.0") }),
    refuses: [],
    run: async () => ({ body: (made ??= document([...routes, itself])) }),
  });

  return itself;
}

function document(routes: readonly Route[]): object {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const one of routes) {
    paths[one.path] = { ...paths[one.path], [one.method.toLowerCase()]: operation(one) };
  }
  return {
    openapi: "3.1.0",
    info: { title: "Veinwright", version: "1", license: { name: "MIT", identifier: "MIT" } },
    paths,
    components: {
      schemas: { Problem: schemaOf(problem, "output") },
      securitySchemes: { session: { type: "apiKey", in: "cookie", name: "__Host-veinwright" } },
    },
  };
}

function operation(one: Route): object {
  const byStatus = new Map<number, RefusalCode[]>();
  for (const code of refusalsOf(one)) byStatus.set(statusOf(code), [...(byStatus.get(statusOf(code)) ?? []), code]);
  const refusals = [...byStatus].map(([status, codes]) => [
    String(status),
    {
      description: [...new Set(codes)].join(", "),
      content: { "application/problem+json": { schema: { $ref: "#/components/schemas/Problem" } } },
    },
  ]);
  return {
    summary: one.summary,
    "x-asker": one.asker,
    security: one.asker === "anyone" ? [] : [{ session: [] }],
    parameters: [
      ...[...one.path.matchAll(/\{(\w+)\}/g)].map(([, name]) =>
        parameter(name ?? "", "path", true, { type: "string" }),
      ),
      ...queryParameters(one),
      ...(one.writes ? [parameter("x-veinwright", "header", true, { const: "1" })] : []),
    ],
    ...(one.body
      ? { requestBody: { required: true, content: { "application/json": { schema: schemaOf(one.body, "input") } } } }
      : {}),
    responses: {
      [one.status]: {
        description: one.summary,
        ...(one.answer ? { content: { "application/json": { schema: schemaOf(one.answer, "output") } } } : {}),
      },
      ...Object.fromEntries(refusals),
    },
  };
}

function queryParameters({ query }: Route): readonly object[] {
  if (!query) return [];
  const { properties = {} } = schemaOf(query, "input") as { readonly properties?: Readonly<Record<string, object>> };
  return Object.entries(properties).map(([name, schema]) => parameter(name, "query", false, schema));
}

const parameter = (name: string, place: string, required: boolean, schema: object) => ({
  name,
  in: place,
  required,
  schema,
});

/** Parts that are named stand inside, so that each schema can be read and tested alone. */
function schemaOf(schema: z.ZodType, io: "input" | "output"): object {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io, reused: "inline", target: "draft-2020-12" });
  return rest;
}
