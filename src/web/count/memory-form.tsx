import { useEffect, useRef, useState, type ReactNode } from "react";
import { memoryWords, sayMemoryRefusal, sayRoleRefused, sayWrite } from "../../language/index.ts";
import {
  decideMemory,
  fieldsOf,
  mayWrite,
  serviceMemory,
  type Entry,
  type EventType,
  type Fields,
  type History,
  type Subject,
} from "../../register/index.ts";
import { hasTyped, keepTyped, typedDraft } from "./kept-draft.ts";
import { EntryForm } from "../record/entry-form.tsx";
import type { FormPart } from "../record/line-parts.ts";
import { historyOf, useRecord } from "../record/record-context.tsx";

function byMemory(history: History, type: EventType, data: Entry): string | undefined {
  const refusal = decideMemory(serviceMemory(history), type, data);
  return refusal && sayMemoryRefusal(refusal);
}

const NOTHING: Entry = {};
const NO_MORE: readonly { readonly type: EventType; readonly data: Entry }[] = [];

/** A press that opens a form of one entry about the service's own numbers; what the page knows is not typed again. */
export function MemoryForm({
  subject,
  type,
  name,
  asks,
  known = NOTHING,
  start = NOTHING,
  press = sayWrite(type),
  also = NO_MORE,
  parts,
  refuse,
  done,
}: {
  readonly subject: Subject;
  readonly type: EventType;
  /** Tells this form from others of its type on the page. */
  readonly name: string;
  /** The fields a person fills in. */
  readonly asks: readonly string[];
  /** What the page knows and adds to it. */
  readonly known?: Entry;
  readonly start?: Entry;
  readonly press?: string;
  /** Entries signed with it, such as what came of an action that was kept on this device. */
  readonly also?: readonly { readonly type: EventType; readonly data: Entry }[];
  /** Groups of the fields, where they do not stand in one. */
  readonly parts?: readonly FormPart[];
  /** Why the entry is not taken, where the service's memory is not what judges it. */
  readonly refuse?: (entry: Entry) => string | undefined;
  readonly done?: () => void;
}): ReactNode {
  const { register } = useRecord();
  const key = `${subject} ${type} ${name}`;
  // a form that holds typed words stands open after a reload
  const [open, setOpen] = useState(() => hasTyped(key));
  const [written, setWritten] = useState("");
  const opener = useRef<HTMLButtonElement>(null);
  const form = useRef<HTMLDivElement>(null);
  const pressed = useRef(false);
  useEffect(() => {
    if (!pressed.current) return;
    pressed.current = false;
    if (open) form.current?.querySelector<HTMLElement>("input, select")?.focus();
    else opener.current?.focus();
  }, [open]);
  const turn = (next: boolean): void => {
    pressed.current = true;
    setOpen(next);
  };
  useEffect(() => {
    if (!open) return undefined;
    const own = form.current;
    const struck = ({ key: one }: KeyboardEvent): void => {
      if (one !== "Escape") return;
      pressed.current = true;
      setOpen(false);
    };
    own?.addEventListener("keydown", struck);
    return () => own?.removeEventListener("keydown", struck);
  }, [open]);
  const all = fieldsOf("service", type) ?? {};
  const fields: Fields = Object.fromEntries(Object.entries(all).filter(([field]) => asks.includes(field)));
  if (!open)
    return (
      <>
        <button
          ref={opener}
          type="button"
          className="quiet"
          data-memory={`${type} ${name}`}
          onClick={() => {
            setWritten("");
            turn(true);
          }}
        >
          {press}
        </button>
        <output className="memory-written">{written}</output>
      </>
    );
  return (
    <div ref={form} className="memory-form" data-memory-form={type}>
      <EntryForm
        draftKey={key}
        fields={fields}
        start={start}
        closing=""
        {...(parts && { parts })}
        kept={typedDraft(key)}
        keep={(draft) => keepTyped(key, draft)}
        sign={async ({ entry, happenedAt, author }) => {
          const data: Entry = { ...known, ...entry };
          const writings = [{ type, data }, ...also];
          const barred = writings.some((one) => !mayWrite([author.role], one.type));
          if (barred) return sayRoleRefused(author.role);
          const refusal = refuse ? refuse(data) : byMemory(historyOf(register, subject), type, data);
          if (refusal !== undefined) return refusal;
          await register.write(writings.map((one) => ({ subject, ...one, happenedAt, author })));
          setWritten(memoryWords.written(register.contact.kind));
          turn(false);
          done?.();
          return undefined;
        }}
      />
      <p className="soft">{memoryWords.typedStays}</p>
      <button type="button" className="quiet" onClick={() => turn(false)}>
        Close without writing
      </button>
    </div>
  );
}
