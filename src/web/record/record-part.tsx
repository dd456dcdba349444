import { lazy, Suspense, useMemo, useState, type ReactNode } from "react";
import { Route, Switch, useLocation } from "wouter";
import type { LocalPolicy } from "../../policy/index.ts";
import { serviceSubject, type EventType, type Subject } from "../../register/index.ts";
import { DeviceLine } from "../register/device-line.tsx";
import { LockCover } from "../register/lock-cover.tsx";
import { NamesCover } from "../register/names-cover.tsx";
import { NewOpenings } from "../register/new-openings.tsx";
import { rehearsal } from "../register/rehearsal.ts";
import { SecretPage } from "../register/secret-page.tsx";
import { SettlePage } from "../register/settle-page.tsx";
import { SignInPage } from "../register/sign-in-page.tsx";
import { useRegister } from "../register/use-register.ts";
import type { Register } from "../register/register.ts";
import type { Plans } from "../storage/use-plans.ts";
import { CorrectPage } from "./correct-page.tsx";
import { DisputePage } from "./dispute-page.tsx";
import { DuplicatesPage } from "./duplicates-page.tsx";
import { LinePage } from "./line-page.tsx";
import { LotsPage } from "./lots-page.tsx";
import { NewPage } from "./new-page.tsx";
import { PlacePage } from "./place-page.tsx";
import { RecordContext, lineOf, patientFor } from "./record-context.tsx";
import { RecordDoor } from "./record-door.tsx";
import { TodayPage } from "./today-page.tsx";
import { WritePage } from "./write-page.tsx";
import "./record.css";

const PaperPage = lazy(() => import("./paper-page.tsx").then((module) => ({ default: module.PaperPage })));

const CasePage = lazy(() => import("../count/case-page.tsx").then((module) => ({ default: module.CasePage })));

const CountPart = lazy(() => import("../count/count-part.tsx").then((module) => ({ default: module.CountPart })));

/** The pages of the record and of looking after; loaded after the plan stands. */
export function RecordPart({ plans, policy }: { readonly plans: Plans; readonly policy: LocalPolicy }): ReactNode {
  const [practice] = useState(rehearsal);
  const register = useRegister(policy.version, practice);
  const place = useMemo(() => ({ register, policy }), [register, policy]);
  const [path, go] = useLocation();
  const toRecord = () => go("/record");
  if (!register.ready) return <p className="waiting">Opening the record on this device ...</p>;
  return (
    <RecordContext.Provider value={place}>
      {register.trouble ? (
        <p className="trouble" role="alert">
          {register.trouble}
        </p>
      ) : null}
      <NewOpenings register={register} />
      <LockCover register={register}>
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
          <Route path="/new/:kind/:of?">
            {({ kind, of }) => <NewPage key={`${kind} ${of}`} kind={kind} of={of} />}
          </Route>
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
          <Route path="/correct/:id/:event">
            {({ id, event }) => <CorrectPage key={event} subject={`line:${id}`} event={event} back={`/line/${id}`} />}
          </Route>
          <Route path="/correct-count/:event">
            {({ event }) => (
              <CorrectPage key={event} subject={serviceSubject(register.rehearsing)} event={event} back="/count" />
            )}
          </Route>
          <Route path="/settle/:id/:event">
            {({ id, event }) => <DisputePage key={event} id={id} event={event} />}
          </Route>
          <Route path="/paper/:id/:name">
            {({ id, name }) => (
              <Suspense fallback={<p className="waiting">Setting the paper ...</p>}>
                <PaperPage key={`${id} ${name}`} id={id} name={decodeURIComponent(name)} />
              </Suspense>
            )}
          </Route>
          <Route path="/case/:id">
            {({ id }) => (
              <Suspense fallback={<p className="waiting">Setting the paper ...</p>}>
                <CasePage key={id} id={id} />
              </Suspense>
            )}
          </Route>
          <Route path="/secret">
            <SecretPage register={register} done={toRecord} />
          </Route>
          <Route path="/sign-in">
            <SignInPage register={register} done={toRecord} />
          </Route>
          {path.startsWith("/count") ? (
            <Route>
              <Suspense fallback={<p className="waiting">Opening the count ...</p>}>
                <CountPart path={path} />
              </Suspense>
            </Route>
          ) : null}
          <Route path="/settle">
            <SettlePage register={register} nameOf={(subject) => nameOf(register, subject)} />
          </Route>
        </Switch>
      </LockCover>
      <DeviceLine register={register} />
      <NamesCover afterMinutes={register.lock.settings.hideNamesAfterMinutes} />
    </RecordContext.Provider>
  );
}

/** Whose a subject is, as a page says it: name and number. */
function nameOf(register: Register, subject: Subject): string {
  const history = register.histories.get(subject);
  const id = subject.startsWith("patient:") ? subject.slice(8) : history && lineOf(history).patient;
  const patient = patientFor(register, id);
  return patient ? `${patient.name || "name missing"}, no. ${patient.number || "missing"}` : subject;
}
