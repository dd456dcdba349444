import { documentRoute } from "./open-api.ts";
import { peopleRoutes } from "./people-routes.ts";
import { planRoutes } from "./plan-routes.ts";
import { recordRoutes } from "./record-routes.ts";
import { reviewRoutes } from "./review-routes.ts";
import type { Route } from "./route.ts";
import { signInRoutes } from "./sign-in-routes.ts";

const described: readonly Route[] = [...planRoutes, ...signInRoutes, ...recordRoutes, ...reviewRoutes, ...peopleRoutes];

/** Every route of a server that keeps the record, with who may ask it. */
export const routeTable: readonly Route[] = [...described, documentRoute(described)];
