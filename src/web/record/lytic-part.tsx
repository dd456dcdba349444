import type { ReactNode } from "react";
import { sayLook, sayLyticDose } from "../../language/index.ts";
import { patencyLimitsFrom } from "../../policy/index.ts";
import { lyticLooks, type LineView } from "../../register/index.ts";
import { useRecord } from "./record-context.tsx";
import { useNow } from "./use-line-answer.ts";

/** After a dose of lytic: each look for blood that is still open, at the time of day it is due. */
export function LyticPart({ line }: { readonly line: LineView }): ReactNode {
  const { register, policy } = useRecord();
  const now = useNow(register);
  const looks = lyticLooks(line, now, patencyLimitsFrom(policy.table));
  if (looks.length === 0) return null;
  return (
    <output className="lytic-looks">
      {looks.map(({ at, doseAt }) => (
        <p key={at} data-look={at}>
          <b>{sayLook(at, now)}</b> <span className="soft">· {sayLyticDose(doseAt)}</span>
        </p>
      ))}
    </output>
  );
}
