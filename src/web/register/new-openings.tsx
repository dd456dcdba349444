import { useEffect, useState, type ReactNode } from "react";
import { Link } from "wouter";
import { sayNewOpenings } from "../../language/index.ts";
import { lookWhileSeen } from "./look-while-seen.ts";
import type { Register } from "./register.ts";
import { askServer } from "./server-port.ts";
import { seenOpenings } from "./seen-openings.ts";

/** Told to a lead on every page of the record: somebody opened a record in need and no lead has looked at it. */
export function NewOpenings({ register }: { readonly register: Register }): ReactNode {
  const [ids, setIds] = useState<readonly string[]>([]);
  const mayReview = register.account !== "" && register.roles.includes("lead");
  const inTouch = register.contact.kind === "in touch";
  useEffect(() => {
    if (!mayReview || !inTouch) return undefined;
    let ended = false;
    const look = async (): Promise<boolean> => {
      const reply = await askServer<{
        readonly opened: readonly { readonly id: string; readonly reviewedBy: string }[];
      }>("/api/break-glass");
      if (reply.kind !== "answer") return false;
      if (!ended) setIds(reply.value.opened.filter(({ reviewedBy }) => reviewedBy === "").map(({ id }) => id));
      return true;
    };
    const stop = lookWhileSeen(look);
    return () => {
      ended = true;
      stop();
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
