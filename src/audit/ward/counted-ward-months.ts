import { instantMs, type Instant } from "../../core/calendar/index.ts";
import { isKnown, missing } from "../../core/missing/index.ts";
import { wardMonths, type History, type KeptWardMonth } from "../../register/index.ts";
import type { WardMonth } from "../line/index.ts";

/**
 * The months that wards counted and wrote into the record, as rows of the line table; none that lies after the moment.
 * Holds: the history of the service. Example: test/specification/ward-month-record.test.ts.
 */
export const countedWardMonths = (service: History, asOf: Instant): readonly WardMonth[] =>
  wardMonths(service)
    .filter(({ at }) => instantMs(at) <= instantMs(asOf))
    .map(rowOf);

const rowOf = ({ id, ward, month, counts, ...one }: KeptWardMonth): WardMonth => ({
  key: id,
  ward,
  month: { precision: "date", date: month },
  patientDays: one.patientDays,
  manualDays: one.dailyLineDays,
  sampledWithLine: one.sampledWithLine,
  sampledAll: one.sampledAll,
  sampledDays: one.sampledDays,
  everyCentralLine: isKnown(counts) ? counts === "every central line" : missing("not asked"),
});
