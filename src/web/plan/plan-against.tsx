import { useContext, type ReactNode } from "react";
import type { Side } from "../../core/arm/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import { armWords, sayFinding } from "../../language/index.ts";
import { EntryContext, Field } from "./field.tsx";

/** Rules nobody may plan against, whoever signs. */
const NEVER = new Set([
  "identity-missing",
  "age-missing",
  "weight-missing",
  "nothing-fits",
  "no-catheter-carries-need",
  "lengths-disagree",
  "fixed-arm-barred",
  "fixed-catheter-does-not-carry-need",
]);

/** Stops that two people may plan against, and those they already have, so that a name can still be mended. */
const isOpenToTwo = ({ code, level, values }: Finding): boolean =>
  !NEVER.has(code) && (level === "stop" || code.startsWith("arm-barred") || values["plannedAgainst"] === true);

/** A stop is planned against only with a typed reason and two names; it then prints on every page. */
export function PlanAgainst({ stops, side }: { readonly stops: readonly Finding[]; readonly side: Side }): ReactNode {
  const { fields, type } = useContext(EntryContext);
  const open = stops.filter(isOpenToTwo).map((finding) => ({
    finding,
    code: finding.code.startsWith("arm-barred") ? `arm-barred.${String(finding.values["reason"])}` : finding.code,
  }));
  if (open.length === 0) return null;
  return (
    <details className="against">
      <summary>Plan against a stop</summary>
      {open.map(({ finding, code }, index) => {
        const prefix = `overrides.${index}`;
        const where = (finding.values["side"] as Side | undefined) ?? side;
        const begin = () => {
          type(`${prefix}.code`, code);
          type(`${prefix}.side`, where);
        };
        return (
          <div key={`${code}-${where}`}>
            <p>
              {armWords(where)}: {sayFinding(finding)}
            </p>
            {fields[`${prefix}.code`] === code ? (
              <>
                <Field path={`${prefix}.reason`} label="Reason" wide />
                <Field path={`${prefix}.names.0`} label="First name" wide />
                <Field path={`${prefix}.names.1`} label="Second name" wide />
              </>
            ) : (
              <button type="button" onClick={begin}>
                Give a reason and two names
              </button>
            )}
          </div>
        );
      })}
    </details>
  );
}
