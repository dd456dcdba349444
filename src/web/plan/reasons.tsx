import type { ReactNode } from "react";
import type { Finding } from "../../core/reason/index.ts";
import { ruleReasons, sayFinding } from "../../language/index.ts";
import type { LocalPolicy, PolicyKey } from "../../policy/index.ts";

const MARK = { met: "✓", stop: "■", ask: "?", note: "·" } as const;
const WORD = { met: "met", stop: "stop", ask: "ask", note: "note" } as const;

/** One rule's outcome: mark and word, the sentence, and on a press why the rule is there and where its limit comes from. */
export function Reason({
  finding,
  policy,
  say = sayFinding,
}: {
  readonly finding: Finding;
  readonly policy: LocalPolicy;
  readonly say?: (finding: Finding) => string;
}): ReactNode {
  const level = finding.level ?? "met";
  const rows = finding.policy.flatMap((key) =>
    key in policy.table ? [[key as PolicyKey, policy.table[key as PolicyKey]] as const] : [],
  );
  const why = ruleReasons[finding.code];
  const sentence = say(finding);
  if (rows.length === 0 && !why) {
    return (
      <li className={level}>
        <span className="mark" aria-label={WORD[level]}>
          {MARK[level]}
        </span>
        <span>{sentence}</span>
      </li>
    );
  }
  return (
    <li className={level}>
      <span className="mark" aria-label={WORD[level]}>
        {MARK[level]}
      </span>
      <details>
        <summary>{sentence}</summary>
        {why ? <p>{why}</p> : null}
        {rows.map(([key, row]) => (
          <p key={key} className="source">
            {row.decides}:{" "}
            {Array.isArray(row.value)
              ? row.value.map((value) => (typeof value === "number" ? Number(value.toFixed(2)) : value)).join(", ")
              : String(row.value)}{" "}
            {row.unit}. {row.howKnown}; {row.source}. Set by {row.owner}, {row.date}.
          </p>
        ))}
      </details>
    </li>
  );
}
