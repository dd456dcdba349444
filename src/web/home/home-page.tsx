import { useState, type ReactNode } from "react";
import { Link } from "wouter";
import type { SelfTest } from "../../core/self-test/index.ts";
import { safetyStatement } from "../../language/index.ts";
import { practicePatients } from "../../practice/index.ts";
import type { Plans } from "../storage/use-plans.ts";

const OPEN = [
  {
    name: "Record",
    line: "What was placed, from referral to removal.",
    href: "/record",
  },
  { name: "Look after", line: "Every line until it is out: what is due, may it be used.", href: "/look-after" },
  { name: "Count", line: "How the service does, each month, with its doubt.", href: "/count" },
] as const;

/** The first screen: four doors, practice, the plans on this device, and plainly what this is not. */
export function HomePage({
  plans,
  selfTest,
  open,
}: {
  readonly plans: Plans;
  readonly selfTest: SelfTest;
  readonly open: (planId: string) => void;
}): ReactNode {
  const [wiping, setWiping] = useState(false);
  const saved = [...plans.plans.values()]
    .filter(({ voided, startedAt }) => voided === undefined && startedAt !== "")
    .sort((a, b) => (a.lastAt < b.lastAt ? 1 : -1));
  return (
    <main className="home">
      <h1>Veinwright</h1>
      <p className="lead">{safetyStatement}</p>
      <nav className="doors" aria-label="Four doors">
        <button type="button" className="door" onClick={() => open(plans.start())}>
          <b>Plan</b>
          <span>A new line, from a tape, a probe and a weight.</span>
        </button>
        {OPEN.map(({ name, line, href }) => (
          <Link key={name} className="door" href={href}>
            <b>{name}</b>
            <span>{line}</span>
          </Link>
        ))}
      </nav>
      <h2>Practice patients</h2>
      <ul className="people">
        {practicePatients.map((patient) => (
          <li key={patient.id}>
            <button type="button" data-practice={patient.id} onClick={() => open(plans.start(patient.id))}>
              <b>{patient.title}</b>
              <span>{patient.trap}</span>
            </button>
          </li>
        ))}
      </ul>
      <h2>Plans on this device</h2>
      {saved.length === 0 ? <p className="soft">None yet.</p> : null}
      <ul className="people">
        {saved.map((plan) => (
          <li key={plan.planId}>
            <button type="button" onClick={() => open(plan.planId)}>
              <b>
                {plan.fields["patient.name"] || "name missing"} · no. {plan.fields["patient.identifier"] || "missing"}
              </b>
              <span>
                {plan.practiceId ? "practice, " : ""}last entry{" "}
                {new Date(plan.lastAt).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" })}
              </span>
            </button>
          </li>
        ))}
      </ul>
      <p className="soft">
        Plans are kept on this device only and are not encrypted yet. Wipe a device that others use.
      </p>
      {wiping ? (
        <p className="confirm">
          Every plan on this device goes, for good.{" "}
          <button type="button" onClick={() => void plans.wipe().then(() => setWiping(false))}>
            Wipe now
          </button>{" "}
          <button type="button" onClick={() => setWiping(false)}>
            Keep
          </button>
        </p>
      ) : (
        <button type="button" className="quiet" onClick={() => setWiping(true)}>
          Wipe this device
        </button>
      )}
      <p>
        <Link href="/policy">Local policy</Link> · <Link href="/flow">See the flow</Link> ·{" "}
        <Link href="/people">People and accounts</Link>
      </p>
      <p className="soft">
        Self-test at start:{" "}
        {selfTest.passed ? "all golden numbers right." : `FAILED (${selfTest.failures.join(", ")}).`}
      </p>
    </main>
  );
}
