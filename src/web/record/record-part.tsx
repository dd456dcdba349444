import { useMemo, type ReactNode } from "react";
import { Route, Switch } from "wouter";
import type { LocalPolicy } from "../../policy/index.ts";
import type { EventType, Subject } from "../../register/index.ts";
import { useRegister } from "../register/use-register.ts";
import type { Plans } from "../storage/use-plans.ts";
import { CorrectPage } from "./correct-page.tsx";
import { DuplicatesPage } from "./duplicates-page.tsx";
import { LinePage } from "./line-page.tsx";
import { LotsPage } from "./lots-page.tsx";
import { NewPage } from "./new-page.tsx";
import { PlacePage } from "./place-page.tsx";
import { RecordContext } from "./record-context.tsx";
import { RecordDoor } from "./record-door.tsx";
import { SettlePage } from "./settle-page.tsx";
import { TodayPage } from "./today-page.tsx";
import { WritePage } from "./write-page.tsx";
import "./record.css";

/** The pages of the record and of looking after; loaded after the plan stands. */
export function RecordPart({ plans, policy }: { readonly plans: Plans; readonly policy: LocalPolicy }): ReactNode {
  const register = useRegister(policy.version);
  const place = useMemo(() => ({ register, policy }), [register, policy]);
  return (
    <RecordContext.Provider value={place}>
      <p className="rehearsal" role="note">
        Practice only. Nothing written here is kept. Do not use it for a patient.
      </p>
      <Switch>
        <Route path="/record">
          <RecordDoor plans={plans} />
        </Route>
        <Route path="/look-after">
          <TodayPage />
        </Route>
        <Route path="/lots">
          <LotsPage />
        </Route>
        <Route path="/duplicates">
          <DuplicatesPage />
        </Route>
        <Route path="/line/:id">{({ id }) => <LinePage key={id} id={id} />}</Route>
        <Route path="/write/:kind/:id/:type">
          {({ kind, id, type }) => (
            <WritePage key={`${kind} ${id} ${type}`} subject={`${kind}:${id}` as Subject} type={type as EventType} />
          )}
        </Route>
        <Route path="/new/:kind/:of?">{({ kind, of }) => <NewPage key={`${kind} ${of}`} kind={kind} of={of} />}</Route>
        <Route path="/place/:planId">
          {({ planId }) => {
            const plan = plans.plans.get(planId);
            return plan ? (
              <PlacePage key={planId} plan={plan} />
            ) : (
              <p className="headline">This plan is not on this device.</p>
            );
          }}
        </Route>
        <Route path="/correct/:id/:event">{({ id, event }) => <CorrectPage key={event} id={id} event={event} />}</Route>
        <Route path="/settle/:id/:event">{({ id, event }) => <SettlePage key={event} id={id} event={event} />}</Route>
      </Switch>
    </RecordContext.Provider>
  );
}
