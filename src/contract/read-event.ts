import { parseCivilDate, parseInstant } from "../core/calendar/index.ts";
import { MISSING_KINDS } from "../core/missing/index.ts";
import {
  ORIGINS,
  ROLES,
  SERVICE_ROLE,
  SUBJECT_KINDS,
  contentHashOf,
  fieldsOf,
  isAboutAnEvent,
  subjectKind,
  type Field,
  type Fields,
  type RegisterEvent,
} from "../register/index.ts";
import { shown, type Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { FIRST_YEAR, LAST_YEAR } from "./year.ts";

const LONGEST_TEXT = 500;
const MOST_SHAPE = 1000;
const MOST_SEEN = 1_000_000_000;
const IDENTIFIER = /^[0-9a-zA-Z-]{1,64}$/;
const STAMP = new Set([
  "id",
  "subject",
  "type",
  "shape",
  "happenedAt",
  "writtenAt",
  "author",
  "device",
  "policyVersion",
  "seen",
  "data",
  "contentHash",
]);

/**
 * Every fault of a sealed event that came from outside: its stamp, its author, and each value it says held against the
 * catalogue. An event without faults may be offered to a store.
 */
export function eventFaults(value: unknown): readonly Fault[] {
  if (!isPlainObject(value)) return [fault("", "wrong-type", value, "an event with its stamp and what it says")];
  const faults: Fault[] = Object.keys(value)
    .filter((key) => !STAMP.has(key))
    .map((key) => fault(key, "unknown-field", value[key], "the fields of an event"));
  const need = (path: string, holds: boolean, rule: string): void => {
    if (!holds) faults.push(fault(path, value[path] === undefined ? "missing-field" : "wrong-type", value[path], rule));
  };
  const { id, subject, type, shape, seen } = value;
  need("id", typeof id === "string" && IDENTIFIER.test(id), "letters, digits and dashes, 64 at most");
  const kind = typeof subject === "string" ? subjectKind(subject) : "";
  const named =
    typeof subject === "string" &&
    (SUBJECT_KINDS as readonly string[]).includes(kind) &&
    IDENTIFIER.test(subject.slice(kind.length + 1));
  need("subject", named, `one of ${SUBJECT_KINDS.join(", ")}, a colon and an identifier`);
  need(
    "shape",
    typeof shape === "number" && Number.isInteger(shape) && shape >= 1 && shape <= MOST_SHAPE,
    `a whole number from 1 to ${MOST_SHAPE}`,
  );
  need(
    "seen",
    typeof seen === "number" && Number.isInteger(seen) && seen >= 0 && seen <= MOST_SEEN,
    `a whole number from 0 to ${MOST_SEEN}`,
  );
  for (const key of ["happenedAt", "writtenAt"]) {
    const at = value[key];
    need(key, typeof at === "string" && parseInstant(at) !== undefined, "a time with its offset");
    if (typeof at === "string" && parseInstant(at)) faults.push(...yearFaults(at, key));
  }
  for (const key of ["device", "policyVersion"]) {
    const text = value[key];
    need(key, typeof text === "string" && text.length <= 80 && hiddenSigns(text, key).length === 0, "a short text");
  }
  faults.push(...authorFaults(value["author"]));
  const fields = typeof type === "string" ? fieldsOf(kind, type) : undefined;
  if (typeof type === "string" && isAboutAnEvent(type)) faults.push(...aboutFaults(type, value["data"], id));
  else if (fields === undefined) faults.push(fault("type", "not-in-list", type, `an event of a ${kind || "subject"}`));
  else faults.push(...entryFaults(fields, value["data"], "data"));
  if (faults.length === 0 && contentHashOf(value as unknown as RegisterEvent) !== value["contentHash"]) {
    faults.push(fault("contentHash", "contradicts", value["contentHash"], "the hash of what the event says"));
  }
  return faults;
}

/** Every fault of what an event says, each value held against its field. */
export function entryFaults(fields: Fields, entry: unknown, path = ""): readonly Fault[] {
  if (!isPlainObject(entry)) return [fault(path, "wrong-type", entry, "values by the name of their field")];
  const at = (key: string) => (path === "" ? key : `${path}.${key}`);
  return Object.entries(entry).flatMap(([key, recorded]): readonly Fault[] => {
    const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
    if (field === undefined) return [fault(at(key), "unknown-field", recorded, "the fields of this event")];
    return recordedFaults(field, recorded, at(key));
  });
}

function recordedFaults(field: Field, recorded: unknown, path: string): readonly Fault[] {
  if (!isPlainObject(recorded)) return [fault(path, "wrong-type", recorded, "a value with its origin, or an absence")];
  const keys = Object.keys(recorded).sort().join(" ");
  if (keys === "missing") {
    return (MISSING_KINDS as readonly unknown[]).includes(recorded["missing"])
      ? []
      : [fault(path, "not-in-list", recorded["missing"], MISSING_KINDS.join(", "))];
  }
  if (keys !== "from value") return [fault(path, "wrong-type", recorded, "a value with its origin, or an absence")];
  const origin = (ORIGINS as readonly unknown[]).includes(recorded["from"])
    ? []
    : [fault(`${path}.from`, "not-in-list", recorded["from"], ORIGINS.join(", "))];
  return [...origin, ...valueFaults(field, recorded["value"], path)];
}

/** Every fault of one value under its field. */
export function valueFaults(field: Field, value: unknown, path: string): readonly Fault[] {
  const wrong = (rule: string): readonly Fault[] => [fault(path, "wrong-type", value, rule)];
  switch (field.kind) {
    case "number":
    case "count": {
      if (typeof value !== "number" || !Number.isFinite(value)) return wrong("a number");
      if (field.kind === "count" && !Number.isInteger(value)) return wrong("a whole number");
      const unit = field.kind === "number" ? ` ${field.unit}` : "";
      return value < field.least || value > field.most
        ? [fault(path, "out-of-range", value, `${field.least} to ${field.most}${unit}`)]
        : [];
    }
    case "choice":
      return field.options.includes(value as string)
        ? []
        : [fault(path, "not-in-list", value, field.options.join(", "))];
    case "choices":
      if (!Array.isArray(value)) return wrong("a list");
      if (new Set(value).size !== value.length) return [fault(path, "twice", value, "each once")];
      return value
        .filter((one) => !field.options.includes(one as string))
        .map((one) => fault(path, "not-in-list", one, field.options.join(", ")));
    case "yes-no":
      return typeof value === "boolean" ? [] : wrong("yes or no");
    case "date":
      return typeof value === "string" && parseCivilDate(value)
        ? yearFaults(value, path)
        : [fault(path, "no-such-date", value, "a day that exists, as YYYY-MM-DD")];
    case "instant":
      return typeof value === "string" && parseInstant(value)
        ? yearFaults(value, path)
        : [fault(path, "no-such-date", value, "a time with its offset")];
    case "reference":
      return typeof value === "string" && IDENTIFIER.test(value) ? [] : wrong("the identifier of another record");
    case "rows":
      return rowFaults(field, value, path);
    case "name":
    case "text":
      if (typeof value !== "string" || value.trim() === "") return wrong("a text");
      if (value.length > LONGEST_TEXT)
        return [fault(path, "too-large", `${value.length} signs`, `${LONGEST_TEXT} at most`)];
      return hiddenSigns(value.replaceAll("\n", " "), path);
    default:
      return field satisfies never;
  }
}

function yearFaults(text: string, path: string): readonly Fault[] {
  const year = Number(text.slice(0, 4));
  return year >= FIRST_YEAR && year <= LAST_YEAR
    ? []
    : [fault(path, "no-such-date", text, `a year from ${FIRST_YEAR} to ${LAST_YEAR}`)];
}

function rowFaults(field: Extract<Field, { readonly kind: "rows" }>, value: unknown, path: string): readonly Fault[] {
  if (!Array.isArray(value)) return [fault(path, "wrong-type", value, "a list")];
  if (value.length > field.most) return [fault(path, "too-large", `${value.length} rows`, `${field.most} at most`)];
  return value.flatMap((row: unknown, index): readonly Fault[] => {
    const at = `${path}.${index}`;
    if (!isPlainObject(row)) return [fault(at, "wrong-type", row, "a row of values")];
    return Object.entries(row).flatMap(([key, one]): readonly Fault[] => {
      const inner = Object.hasOwn(field.fields, key) ? field.fields[key] : undefined;
      if (inner === undefined) return [fault(`${at}.${key}`, "unknown-field", one, "the fields of a row")];
      return valueFaults(inner, one, `${at}.${key}`);
    });
  });
}

function authorFaults(author: unknown): readonly Fault[] {
  if (!isPlainObject(author)) return [fault("author", "wrong-type", author, "initials, role and account")];
  const faults: Fault[] = [];
  const { initials, role, account } = author;
  if (typeof initials !== "string" || !/^[\p{Letter}\p{Mark}.' -]{1,40}$/u.test(initials.trim())) {
    faults.push(fault("author.initials", "wrong-type", initials, "letters, 40 at most"));
  }
  if (role !== SERVICE_ROLE && !(ROLES as readonly unknown[]).includes(role))
    faults.push(fault("author.role", "not-in-list", role, ROLES.join(", ")));
  if (typeof account !== "string" || account.length > 80)
    faults.push(fault("author.account", "wrong-type", account, "a text"));
  if (Object.keys(author).length !== 3)
    faults.push(fault("author", "unknown-field", author, "initials, role and account"));
  return faults;
}

const ABOUT_KEYS = { EventVoided: ["event", "why"], ValueCorrected: ["event", "field", "value", "why"] } as const;

function aboutFaults(type: keyof typeof ABOUT_KEYS, data: unknown, id: unknown): readonly Fault[] {
  if (!isPlainObject(data)) return [fault("data", "wrong-type", data, "which event and why")];
  const faults: Fault[] = Object.keys(data)
    .filter((key) => !(ABOUT_KEYS[type] as readonly string[]).includes(key))
    .map((key) => fault(`data.${key}`, "unknown-field", data[key], ABOUT_KEYS[type].join(", ")));
  // a correction of itself would be its own witness of who may correct
  if (data["event"] === id) faults.push(fault("data.event", "contradicts", id, "another event than itself"));
  const why = data["why"];
  if (typeof data["event"] !== "string" || !IDENTIFIER.test(data["event"])) {
    faults.push(fault("data.event", "wrong-type", data["event"], "the identifier of an event"));
  }
  if (typeof why !== "string" || why.trim() === "" || why.length > LONGEST_TEXT || hiddenSigns(why, "").length > 0) {
    faults.push(fault("data.why", why === undefined ? "missing-field" : "wrong-type", why, "a reason in words"));
  }
  if (type === "EventVoided") return faults;
  if (typeof data["field"] !== "string" || !/^[a-zA-Z]{1,40}$/.test(data["field"])) {
    faults.push(fault("data.field", "wrong-type", data["field"], "the name of a field"));
  }
  const value = data["value"];
  const keys = isPlainObject(value) ? Object.keys(value).sort().join(" ") : "";
  if (keys !== "missing" && keys !== "from value") {
    faults.push(fault("data.value", "wrong-type", value, "a value with its origin, or an absence"));
  }
  return faults;
}

function fault(path: string, code: Fault["code"], found: unknown, rule: string): Fault {
  return { path, code, found: shown(found), rule };
}

const isPlainObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
