import event from "./event.json" with { type: "json" };
import flow from "./flow.json" with { type: "json" };
import placing from "./placing.json" with { type: "json" };
import record from "./record.json" with { type: "json" };
import infection from "./yardstick/infection.json" with { type: "json" };
import mechanical from "./yardstick/mechanical.json" with { type: "json" };
import thrombosis from "./yardstick/thrombosis.json" with { type: "json" };

/** The measures of this release as they stand in their files, not yet read: src/audit checks them. */
export const measureFiles: readonly unknown[] = [flow, event, placing, record];

/** What others published of the same things, as it stands in its files, not yet read: src/audit checks it. */
export const yardstickFiles: readonly unknown[] = [thrombosis, infection, mechanical];
