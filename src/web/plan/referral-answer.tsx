import { useState, type ReactNode } from "react";
import type { DeviceAnswer, ReferralAnswer } from "../../core/device-choice/index.ts";
import {
  armProtectionNote,
  dailyLife,
  dayFlipSentence,
  deviceFlipSentence,
  deviceSentence,
  evidenceBeside,
  factQuestion,
  rangeLines,
  ratedSentence,
  reasonRule,
  sayFinding,
  usualDwell,
  wardLines,
} from "../../language/index.ts";
import { ruleOrigin, whyOfRule } from "../../policy/index.ts";

/** What the need asks for, ahead of the arm: the sentence, why, what is still to ask, and the lines for the ward. */
export function ReferralSaid({ answer }: { readonly answer: ReferralAnswer }): ReactNode {
  const { device, kidney, infusates, notes } = answer;
  const why = device.outcome === "ask" ? undefined : whyOfRule(reasonRule(device));
  const found = [...infusates.flatMap((one) => one.findings), ...kidney.findings, ...notes];
  const range = device.outcome === "ask" ? [] : rangeLines(device);
  const lines = wardLines(answer, why ?? "");
  return (
    <section className="referral" data-device={device.outcome} aria-label="Is a line needed">
      <p className="headline">{deviceSentence(device)}</p>
      {why ? <p>{why}</p> : null}
      {range.map((line) => (
        <p className="range" key={line}>
          {line}
        </p>
      ))}
      {device.outcome === "ask" ? null : <StillToAsk device={device} />}
      <ul className="plain found">
        {found
          .filter(({ level }) => level !== undefined)
          .map((finding) => (
            <li key={`${finding.code} ${sayFinding(finding)}`} data-level={finding.level}>
              {sayFinding(finding)}
            </li>
          ))}
      </ul>
      {lines ? <WardNote lines={lines} /> : null}
      {kidney.standing === "barred" ? (
        <p className="keep-arms">
          {armProtectionNote.map((line) => (
            <span key={line}>{line} </span>
          ))}
        </p>
      ) : null}
      {device.outcome === "ask" ? null : <Compared device={device} />}
    </section>
  );
}

function StillToAsk({ device }: { readonly device: DeviceAnswer }): ReactNode {
  const blocking = device.stillToAsk;
  const others = device.wouldMatter.filter((fact) => !blocking.includes(fact));
  if (blocking.length + others.length === 0) return null;
  return (
    <ul className="plain still" aria-label="Still to ask">
      {blocking.map((fact) => (
        <li key={fact}>
          <b>{factQuestion[fact]}</b>
        </li>
      ))}
      {others.map((fact) => (
        <li key={fact}>{factQuestion[fact]}</li>
      ))}
    </ul>
  );
}

/** Two polite lines to send back to the ward, copied by one press. */
function WardNote({ lines }: { readonly lines: readonly [string, string] }): ReactNode {
  const [copied, setCopied] = useState<string>();
  const copy = () => {
    navigator.clipboard
      .writeText(lines.join("\n"))
      .then(() => setCopied("Copied."))
      .catch(() => setCopied("This browser does not copy. Select the lines by hand."));
  };
  return (
    <blockquote className="ward">
      <p>{lines[0]}</p>
      <p>{lines[1]}</p>
      <button type="button" onClick={copy}>
        Copy for the ward
      </button>
      {copied ? <output> {copied}</output> : null}
    </blockquote>
  );
}

function Compared({ device }: { readonly device: DeviceAnswer }): ReactNode {
  return (
    <details className="compared">
      <summary>Every device, what would change this, and what is known</summary>
      <ul className="plain">
        {device.ranked.map((ranked) => (
          <li key={ranked.device}>
            {ratedSentence(ranked, whyOfRule(ranked.rules[0]) ?? "")}{" "}
            <span className="soft">{ruleOrigin(ranked.rules[0])}</span>
          </li>
        ))}
      </ul>
      <h3>What would change this</h3>
      <ul className="plain">
        {[...device.dayFlips.map(dayFlipSentence), ...device.flips.map(deviceFlipSentence)].map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <h3>Living with it</h3>
      <ul className="plain">
        {device.first.flatMap(({ device: name }) =>
          [...(evidenceBeside[name] ?? []), usualDwell[name], dailyLife[name]]
            .filter((line) => line !== undefined)
            .map((line) => (
              <li key={`${name} ${line}`}>
                {name}: {line}
              </li>
            )),
        )}
      </ul>
      <p className="soft">How long and daily life: common practice, no source.</p>
    </details>
  );
}
