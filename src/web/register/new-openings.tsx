import { useEffect, useState, type ReactNode } from "react";
import { Link } from "wouter";
import { sayNewOpenings } from "../../language/index.ts";
import type { Register } from "./register.ts";
import { askServer } from "./server-port.ts";
import { seenOpenings } from "./seen-openings.ts";

const LOOK_AGAIN_MS = 60_000;

/** Told to a lead on every page of the record: somebody opened a record in need and no lead has looked at it. */
export function NewOpenings({ register }: { readonly register: Register }): ReactNode {
  const [ids, setIds] = useState<readonly string[]>([]);
  const mayReview = register.account !== "" && register.roles.includes("lead");
  const inTouch = register.contact.kind === "in touch";
  useEffect(() => {
    if (!mayReview || !inTouch) return undefined;
    let ended = false;
    const look = async () => {
      const reply = await askServer<{
        readonly opened: readonly { readonly id: string; readonly reviewedBy: string }[];
      }>("/api/break-glass");
      if (!ended && reply.kind === "answer") {
        setIds(reply.value.opened.filter(({ reviewedBy }) => reviewedBy === "").map(({ id }) => id));
      }
    };
    const again = () => void look().catch(() => undefined);
    again();
    const timer = setInterval(again, LOOK_AGAIN_MS);
    return () => {
      ended = true;
      clearInterval(timer);
    };
  }, [mayReview, inTouch]);
  const unread = ids.filter((id) => !seenOpenings().has(id));
  if (!mayReview || unread.length === 0) return null;
  return (
    <output className="trouble" data-openings={unread.length}>
      <Link href="/people">{sayNewOpenings(unread.length)}</Link>
    </output>
  );
}
