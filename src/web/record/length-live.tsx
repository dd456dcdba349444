import type { ReactNode } from "react";
import { civilDateOf, completedYears, parseCivilDate } from "../../core/calendar/index.ts";
import { missing } from "../../core/missing/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { judgeOutside } from "../../core/tip/index.ts";
import { centimetres, outsideSentence, sayDay, sayLineFinding } from "../../language/index.ts";
import { releasePolicyFrom, tipPolicyFrom } from "../../policy/index.ts";
import { outsideAtTip, tipDepthOf, type LineView } from "../../register/index.ts";
import { Reason } from "../plan/reasons.tsx";
import { patientFor, useRecord } from "./record-context.tsx";

const none = missing("not asked");
const STEPS = new Set(["outside-as-before", "outside-measure-again", "outside-moved-out", "outside-moved-in"]);

/** What an outside length says while it is typed: how far it moved since the tip was fixed, and the policy's step. */
export function LengthLive({ line, outsideCm }: { readonly line: LineView; readonly outsideCm: number }): ReactNode {
  const { register, policy } = useRecord();
  const base = outsideAtTip(line);
  const bornOn = patientFor(register, line.patient)?.bornOn ?? "";
  const born = parseCivilDate(bornOn);
  const tip = tipPolicyFrom(policy.table);
  const film = tipDepthOf(line, bornOn, tip);
  const answer = judgeOutside(
    {
      ageYears: born ? completedYears(born, civilDateOf(register.now())) : none,
      depthAtFilmCm: film === undefined ? none : centimetre(film.depthCm),
      unitCm: film?.unitCm,
      outsideAtFilmCm: base?.value ?? none,
      outsideNowCm: centimetre(outsideCm),
      symptoms: none,
      bloodReturn: none,
    },
    tip,
    releasePolicyFrom(policy.table),
  );
  const step = answer.findings.find(({ code }) => STEPS.has(code));
  return (
    <output className="length-live" data-step={answer.step ?? "no baseline"}>
      {base && step ? (
        <>
          <span className="soft">
            {centimetres(base.value)} on {sayDay(civilDateOf(base.at)).slice(4)}.
          </span>
          <ul className="reasons">
            <Reason finding={step} policy={policy} say={sayLineFinding} />
          </ul>
          {answer.estimate && answer.step !== "noise" ? <p className="soft">{outsideSentence(answer)}</p> : null}
        </>
      ) : (
        "No earlier outside length to hold it against."
      )}
    </output>
  );
}
