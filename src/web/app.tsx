import { lazy, Suspense, useEffect, useMemo, useState, type ReactNode } from "react";
import { Link, Route, Router, Switch, useLocation } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import type { Infusate } from "../core/infusate/index.ts";
import type { PolicyRow } from "../core/reason/index.ts";
import { runSelfTest } from "../core/self-test/index.ts";
import { selfTestSentence } from "../language/index.ts";
import { defaultPolicyTable, localPolicy, planPolicyFrom, starterInfusates } from "../policy/index.ts";
import type { PlanState } from "../register/index.ts";
import { flowStartOf } from "./flow/flow-start.ts";
import { LastResort } from "./last-resort.tsx";
import { HomePage } from "./home/home-page.tsx";
import { PlanPage } from "./plan/plan-page.tsx";
import { keepDrugList, keepLocalRow, readLocalRows } from "./storage/event-store.ts";
import { isRecordPath } from "./record/record-path.ts";
import { usePlans } from "./storage/use-plans.ts";

const PolicyPage = lazy(() => import("./policy/policy-page.tsx").then((module) => ({ default: module.PolicyPage })));

const RecordPart = lazy(() => import("./record/record-part.tsx").then((module) => ({ default: module.RecordPart })));

const FlowPage = lazy(() => import("./flow/flow-page.tsx").then((module) => ({ default: module.FlowPage })));

const ImportPage = lazy(() =>
  import("./spreadsheet/import-page.tsx").then((module) => ({ default: module.ImportPage })),
);
const PeoplePage = lazy(() => import("./people/people-page.tsx").then((module) => ({ default: module.PeoplePage })));

const NeedPage = lazy(() => import("./people/need-page.tsx").then((module) => ({ default: module.NeedPage })));

export function App(): ReactNode {
  return (
    <Router hook={useHashLocation}>
      <LastResort>
        <Pages />
      </LastResort>
    </Router>
  );
}

function Pages(): ReactNode {
  const selfTest = useMemo(() => runSelfTest(planPolicyFrom(defaultPolicyTable)), []);
  const [rows, setRows] = useState<Readonly<Record<string, PolicyRow>>>({});
  const policy = useMemo(() => localPolicy({ ...defaultPolicyTable, ...rows }), [rows]);
  const plans = usePlans(policy);
  const [ownDrugs, setOwnDrugs] = useState<readonly Infusate[]>([]);
  // a hospital's own drug stands before the starter list's of the same name
  const drugs = useMemo(() => [...ownDrugs, ...starterInfusates], [ownDrugs]);
  const [path, go] = useLocation();
  const closed = useClosed(path, plans.plans);

  useEffect(() => {
    readLocalRows()
      .then(setRows)
      .catch(() => undefined);
    // the reader of spreadsheets is a part of its own, loaded after the plan stands
    import("./policy/drug-list.ts")
      .then(({ ownDrugs }) => ownDrugs())
      .then(setOwnDrugs)
      .catch(() => undefined);
  }, []);

  if (!selfTest.passed) return <p className="headline">{selfTestSentence(selfTest.failures)}</p>;
  if (!plans.ready) return <p className="waiting">Opening the plans on this device ...</p>;
  return (
    <>
      {path === "/" ? null : (
        <nav className="back" aria-label="Back">
          <Link href="/">All doors</Link>
        </nav>
      )}
      {closed ? <p className="closed">Closed: {closed}. Kept on this device.</p> : null}
      {plans.trouble ? (
        <p className="trouble" role="alert">
          {plans.trouble}
        </p>
      ) : null}
      <Switch>
        <Route path="/plan/:id">
          {({ id }) => {
            const state = plans.plans.get(id);
            return state ? (
              <PlanPage key={id} state={state} plans={plans} today={policy} drugs={drugs} />
            ) : (
              <p className="headline">This plan is not on this device.</p>
            );
          }}
        </Route>
        <Route path="/policy">
          <Suspense fallback={<p className="waiting">Opening the policy ...</p>}>
            <PolicyPage
              policy={policy}
              drugs={ownDrugs}
              takeDrugs={(csv, list) => {
                setOwnDrugs(list);
                keepDrugList(csv).catch(() =>
                  plans.tell("The drug list holds for now, but this browser does not keep it."),
                );
              }}
              set={(key, row) => {
                setRows((now) => ({ ...now, [key]: row }));
                keepLocalRow(key, row).catch(() =>
                  plans.tell("The limit holds for now, but this browser does not keep it. Export the table."),
                );
              }}
            />
          </Suspense>
        </Route>
        <Route path="/flow/:id?">
          {({ id }) => {
            const state = id === undefined ? undefined : plans.plans.get(id);
            return (
              <Suspense fallback={<p className="waiting">Opening the flow ...</p>}>
                <FlowPage key={id ?? "alone"} start={state && flowStartOf(state, policy)} policy={policy} />
              </Suspense>
            );
          }}
        </Route>
        <Route path="/import">
          <Suspense fallback={<p className="waiting">Opening the import ...</p>}>
            <ImportPage policy={policy} />
          </Suspense>
        </Route>
        <Route path="/people">
          <Suspense fallback={<p className="waiting">Opening the accounts ...</p>}>
            <PeoplePage />
          </Suspense>
        </Route>
        <Route path="/in-need/:patient?">
          {({ patient }) => (
            <Suspense fallback={<p className="waiting">Opening the record ...</p>}>
              <NeedPage key={patient} patient={patient} />
            </Suspense>
          )}
        </Route>
        {isRecordPath(path) ? (
          <Route>
            <Suspense fallback={<p className="waiting">Opening the record ...</p>}>
              <RecordPart plans={plans} policy={policy} />
            </Suspense>
          </Route>
        ) : null}
        <Route>
          <HomePage plans={plans} selfTest={selfTest} open={(planId) => go(`/plan/${planId}`)} />
        </Route>
      </Switch>
    </>
  );
}

/** The patient whose plan was left when this one was opened: named once, so that a switch is never silent. */
function useClosed(path: string, plans: ReadonlyMap<string, PlanState>): string | undefined {
  const [seen, setSeen] = useState<{ readonly open: string | undefined; readonly before: string | undefined }>({
    open: undefined,
    before: undefined,
  });
  const open = /^\/plan\/(.+)$/.exec(path)?.[1];
  useEffect(() => {
    if (open !== undefined) setSeen((now) => (now.open === open ? now : { open, before: now.open }));
  }, [open]);
  const before = seen.before === undefined || open === undefined ? undefined : plans.get(seen.before);
  return (
    before &&
    `${before.fields["patient.name"] || "name missing"}, no. ${before.fields["patient.identifier"] || "missing"}`
  );
}
