import { useCallback, useEffect, useRef, useState } from "react";
import { draftFromCase } from "../../contract/index.ts";
import { clockIsBehind } from "../../core/identity/index.ts";
import { clockSentence } from "../../language/index.ts";
import { policyValues, type LocalPolicy } from "../../policy/index.ts";
import { practicePatients } from "../../practice/index.ts";
import {
  decide,
  evolve,
  foldPlans,
  initialState,
  type PlanCommand,
  type PlanEvent,
  type PlanState,
} from "../../register/index.ts";
import { keepEvents, readEvents, wipeDevice } from "./event-store.ts";

export interface Plans {
  readonly ready: boolean;
  readonly plans: ReadonlyMap<string, PlanState>;
  /** What the device could not keep, in words; undefined while all is kept. */
  readonly trouble: string | undefined;
  readonly start: (practiceId?: string) => string;
  readonly command: (planId: string, command: PlanCommand) => void;
  readonly wipe: () => Promise<void>;
  /** Says something that went wrong, where everything that went wrong is said. */
  readonly tell: (trouble: string) => void;
}

const newId = () => (crypto.randomUUID ? crypto.randomUUID() : `${Date.now()}-${Math.random().toString(36).slice(2)}`);

/** The plans of this device: every command becomes events, folded at once and kept in the background. */
export function usePlans(policy: LocalPolicy): Plans {
  const [plans, setPlans] = useState<ReadonlyMap<string, PlanState>>(new Map());
  const [ready, setReady] = useState(false);
  const [trouble, setTrouble] = useState<string>();
  const latest = useRef(plans);

  const show = useCallback((next: ReadonlyMap<string, PlanState>) => {
    latest.current = next;
    setPlans(next);
  }, []);

  useEffect(() => {
    readEvents()
      .then((events) => {
        show(foldPlans(events));
        const last = events.reduce((latest, { writtenAt }) => (writtenAt > latest ? writtenAt : latest), "");
        if (clockIsBehind(Date.now(), last === "" ? undefined : Date.parse(last))) setTrouble(clockSentence(last));
      })
      .catch(() => setTrouble("This browser keeps nothing. Print before you close the page."))
      .finally(() => setReady(true));
  }, [show]);

  // another tab of this device: what it keeps is read here too, and a wipe there is a wipe here
  const others = useRef<BroadcastChannel>(undefined);
  useEffect(() => {
    if (!("BroadcastChannel" in globalThis)) return undefined;
    const channel = new BroadcastChannel("veinwright-plans");
    channel.onmessage = () => {
      readEvents()
        .then((events) => show(foldPlans(events)))
        .catch(() => setTrouble("Another tab changed the plans, and this one cannot read them. Reload."));
    };
    others.current = channel;
    return () => channel.close();
  }, [show]);

  const keep = useCallback(
    (events: readonly PlanEvent[]) => {
      if (events.length === 0) return;
      const next = new Map(latest.current);
      for (const event of events)
        next.set(event.planId, evolve(next.get(event.planId) ?? initialState(event.planId), event));
      show(next);
      keepEvents(events)
        .then(() => others.current?.postMessage("kept"))
        .catch(() => setTrouble("The last entry is not kept on this device. Print or copy it now."));
    },
    [show],
  );

  const stamp = useCallback(() => {
    const now = new Date().toISOString();
    return { id: newId(), happenedAt: now, writtenAt: now, policyVersion: policy.version };
  }, [policy]);

  const start = useCallback(
    (practiceId?: string) => {
      const planId = newId();
      const patient = practicePatients.find(({ id }) => id === practiceId);
      const fields = patient ? Object.entries(draftFromCase(patient.planCase)) : [];
      keep([
        { ...stamp(), planId, type: "PlanStarted", practiceId, policyValues: policyValues(policy.table) },
        ...fields.map(([path, text]): PlanEvent => ({ ...stamp(), planId, type: "PlanFieldTyped", path, text })),
      ]);
      return planId;
    },
    [keep, stamp, policy],
  );

  const command = useCallback(
    (planId: string, wanted: PlanCommand) => {
      const decision = decide(latest.current.get(planId) ?? initialState(planId), wanted, stamp());
      if (decision.kind === "accepted") keep(decision.events);
    },
    [keep, stamp],
  );

  const wipe = useCallback(async () => {
    try {
      await wipeDevice();
    } catch {
      setTrouble("Nothing was wiped: this browser does not open its store. Clear its data by hand.");
      return;
    }
    show(new Map());
    others.current?.postMessage("wiped");
  }, [show]);

  return { ready, plans, trouble, start, command, wipe, tell: setTrouble };
}
