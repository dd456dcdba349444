import { Fragment, useState, type ReactNode } from "react";
import { draftOfEntry, readEntryDraft, type EntryDraft } from "../../contract/index.ts";
import type { Instant } from "../../core/calendar/index.ts";
import { sayFault, sayField, sayMissing } from "../../language/index.ts";
import { missingFields, type Author, type Entry, type Fields } from "../../register/index.ts";
import { FieldInput } from "./field-input.tsx";
import type { FormPart } from "./line-parts.ts";
import { useRecord } from "./record-context.tsx";
import { Signer } from "../register/signer.tsx";
import { NOW, WhenInput, type When } from "./when-input.tsx";

/** Drafts of this sitting, so that a form left and opened again still holds what was typed. */
const drafts = new Map<string, EntryDraft>();

const NOTHING: Entry = {};

type Filling = Readonly<Record<string, string>>;

export interface Signed {
  readonly entry: Entry;
  readonly happenedAt: Instant;
  readonly author: Author;
}

/** A form read off the catalogue: one part after the other, what is missing said at the end, signed by name. */
export function EntryForm({
  draftKey,
  fields,
  start = NOTHING,
  parts,
  word,
  closing = "It may be signed as it is.",
  above,
  beside,
  opens,
  kept,
  keep,
  sign,
}: {
  readonly draftKey: string;
  readonly fields: Fields;
  /** Values already known: fixed references, or a plan's values that wait to be confirmed. */
  readonly start?: Entry;
  /** Groups of fields in the order of the work; without them all stand in one. */
  readonly parts?: readonly FormPart[];
  readonly word?: string;
  /** What is said after the list of what is missing. */
  readonly closing?: string;
  /** What stands over the fields and fills them: a field changed by hand since it was filled is left alone. */
  readonly above?: (put: (next: Filling, before: Filling) => void) => ReactNode;
  /** What is said under a field while it is typed. */
  readonly beside?: (name: string, entry: Entry) => ReactNode;
  /** Whether a folded group is to be seen at what was typed so far. */
  readonly opens?: (title: string, entry: Entry) => boolean;
  /** What was typed before a reload, and where each change is kept against the next; undefined once it is written. */
  readonly kept?: EntryDraft | undefined;
  readonly keep?: (draft: EntryDraft | undefined) => void;
  /** Writes it; answers with the reason it could not be written. */
  readonly sign: (signed: Signed) => Promise<string | undefined>;
}): ReactNode {
  const { register } = useRecord();
  const [draft, setDraft] = useState<EntryDraft>(() => drafts.get(draftKey) ?? kept ?? draftOfEntry(start));
  const [when, setWhen] = useState<When>(NOW);
  const [tried, setTried] = useState(false);
  const [busy, setBusy] = useState(false);
  const [question, setQuestion] = useState<string>();
  const { entry, faults } = readEntryDraft(fields, draft);
  const words = Object.fromEntries(faults.map((fault) => [fault.path.split(".")[0], sayWithName(fault)]));
  const change = (next: EntryDraft) => {
    drafts.set(draftKey, next);
    keep?.(next);
    setDraft(next);
  };
  const set = (name: string, typed: EntryDraft[string]) => {
    change({ ...draft, [name]: typed });
    setQuestion(undefined);
  };
  const shown: readonly FormPart[] = parts ?? [
    { title: "", names: Object.keys(fields).filter((name) => fields[name]?.kind !== "reference") },
  ];
  const input = (name: string): ReactNode => {
    const field = fields[name];
    return field ? (
      <Fragment key={name}>
        <FieldInput
          name={name}
          field={field}
          typed={draft[name]}
          fault={tried || draft[name]?.text ? words[name] : undefined}
          set={(typed) => set(name, typed)}
        />
        {beside?.(name, entry)}
      </Fragment>
    ) : null;
  };
  // what was typed in a folded group is never hidden from whoever signs it
  const isOpen = ({ title, names }: NonNullable<FormPart["more"]>): boolean =>
    opens?.(title, entry) === true || names.some((name) => draft[name] !== undefined && draft[name].text !== "");
  const confirm = (names: readonly string[]) => {
    const next = { ...draft };
    for (const name of names) {
      const typed = next[name];
      if (typed?.from === "plan") next[name] = { text: typed.text, from: "measured" };
    }
    change(next);
  };
  const put = (next: Filling, before: Filling) => {
    const untouched = Object.keys(next).filter((name) => ["", before[name]].includes(draft[name]?.text ?? ""));
    change({ ...draft, ...Object.fromEntries(untouched.map((name) => [name, { text: next[name] ?? "" }])) });
  };
  return (
    <div className="entry-form">
      <WhenInput now={register.now} set={setWhen} />
      {above?.(put)}
      {shown.map(({ title, names, more }) => (
        <section key={title} aria-label={title || undefined}>
          {title ? <h2>{title}</h2> : null}
          <ConfirmPart names={names} fields={fields} draft={draft} confirm={confirm} />
          {names.map(input)}
          {more ? (
            <details className="more" open={isOpen(more) || (tried && more.names.some((name) => words[name]))}>
              <summary>{more.title}</summary>
              {more.names.map(input)}
            </details>
          ) : null}
        </section>
      ))}
      <output className="still-missing">
        {sayMissing(missingFields(fields, entry).filter(({ field }) => fields[field]?.kind !== "reference"))} {closing}
      </output>
      <Signer
        register={register}
        busy={busy}
        question={question}
        {...(word === undefined ? {} : { word })}
        sign={(author) => {
          setTried(true);
          if (when.question) return setQuestion(when.question);
          if (faults.length > 0) {
            return setQuestion(
              `${faults.length === 1 ? "One answer" : `${faults.length} answers`} cannot be read. See above.`,
            );
          }
          setBusy(true);
          sign({ entry, happenedAt: when.at ?? register.now(), author })
            .then((refusal) => {
              setQuestion(refusal);
              if (refusal !== undefined) return;
              drafts.delete(draftKey);
              keep?.(undefined);
            })
            .catch(() => setQuestion("This device could not keep the entry. Copy it to paper now."))
            .finally(() => setBusy(false));
        }}
      />
    </div>
  );
}

/**
 * One press for what was read aloud and is as planned. What a tape, a caliper or a sticker says is never in it: each of
 * those is confirmed by itself.
 */
function ConfirmPart({
  names,
  fields,
  draft,
  confirm,
}: {
  readonly names: readonly string[];
  readonly fields: Fields;
  readonly draft: EntryDraft;
  readonly confirm: (names: readonly string[]) => void;
}): ReactNode {
  const waiting = names.filter(
    (name) => draft[name]?.from === "plan" && fields[name]?.kind !== "number" && name !== "lotNumber",
  );
  if (waiting.length < 2) return null;
  return (
    <p className="confirm-part">
      <button type="button" onClick={() => confirm(waiting)} data-confirm-part={waiting.join(" ")}>
        As planned: {waiting.map((name) => `${sayField(name).toLowerCase()} ${draft[name]?.text ?? ""}`).join(", ")}
      </button>
    </p>
  );
}

const sayWithName = (fault: Parameters<typeof sayFault>[0]): string => {
  const [name = "", ...rest] = fault.path.split(".");
  return sayFault({ ...fault, path: [sayField(name), ...rest].join(" ") });
};
