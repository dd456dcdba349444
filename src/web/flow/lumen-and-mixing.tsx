import { useState, type ReactNode } from "react";
import { readNumber } from "../../contract/index.ts";
import { FLUIDS, lumenAnswer, mixingAnswer, type Fluid } from "../../core/flow/index.ts";
import { centimetre, millimetre } from "../../core/quantity/index.ts";
import { flowRefusal, lumenFlowLines, mixingLines } from "../../language/index.ts";
import type { FlowAssumptions } from "../../policy/index.ts";

/** What one lumen of the catheter above carries under a hanging bag. */
export function LumenSection({
  outsideDiameterMm,
  lumens,
  assumed,
}: {
  readonly outsideDiameterMm: number;
  readonly lumens: number;
  readonly assumed: FlowAssumptions;
}): ReactNode {
  const [length, setLength] = useState("45");
  const [head, setHead] = useState(String(assumed.headCm));
  const [fluid, setFluid] = useState<Fluid>("water");
  const [lengthCm, headCm] = [numberOf(length), numberOf(head)];
  const usable = lengthCm !== undefined && headCm !== undefined && lengthCm >= 1 && headCm >= 0;
  const answer = usable
    ? lumenAnswer(
        { outsideDiameterMm: millimetre(outsideDiameterMm), lumens, lengthCm: centimetre(lengthCm), fluid, headCm },
        assumed,
      )
    : undefined;
  return (
    <section>
      <h2>What one lumen carries</h2>
      <div className="flow-entry">
        <Typed label="Length" unit="cm" value={length} type={setLength} />
        <Typed label="Bag over the tip" unit="cm" value={head} type={setHead} />
        <label>
          Fluid{" "}
          <select value={fluid} onChange={(event) => setFluid(event.target.value as Fluid)}>
            {FLUIDS.map((word) => (
              <option key={word}>{word}</option>
            ))}
          </select>
        </label>
      </div>
      <Lines
        lines={
          answer === undefined
            ? ["Type a length and a height in centimetres."]
            : answer.kind === "lumen flow"
              ? lumenFlowLines(answer, fluid)
              : [flowRefusal[answer.reason] ?? answer.reason]
        }
      />
    </section>
  );
}

/** What reaches the blood beyond the tip, on average. */
export function MixingSection({ assumed }: { readonly assumed: FlowAssumptions }): ReactNode {
  const [osmolarity, setOsmolarity] = useState("1700");
  const [rate, setRate] = useState("100");
  const [flow, setFlow] = useState("95");
  const [limit, setLimit] = useState("");
  const [o, r, q, l] = [osmolarity, rate, flow, limit].map(numberOf);
  const usable = o !== undefined && r !== undefined && q !== undefined && o >= 0 && r >= 0 && q >= 0;
  return (
    <section>
      <h2>What reaches the blood</h2>
      <div className="flow-entry">
        <Typed label="Infusion" unit="mOsm/L" value={osmolarity} type={setOsmolarity} />
        <Typed label="Its rate" unit="mL/h" value={rate} type={setRate} />
        <Typed label="Blood past the tip" unit="mL/min" value={flow} type={setFlow} />
        <Typed label="Limit to compare" unit="mOsm/L" value={limit} type={setLimit} />
      </div>
      <Lines
        lines={
          usable
            ? mixingLines(
                mixingAnswer({ osmolarity: o, rateMlPerHour: r, bloodFlowMlPerMinute: q, limit: l }, assumed),
                l,
              )
            : ["Type an osmolarity, a rate and a flow of blood; zero is allowed."]
        }
      />
    </section>
  );
}

function numberOf(text: string): number | undefined {
  const reading = readNumber(text);
  return reading.kind === "number" ? reading.value : undefined;
}

function Typed({
  label,
  unit,
  value,
  type,
}: {
  readonly label: string;
  readonly unit: string;
  readonly value: string;
  readonly type: (text: string) => void;
}): ReactNode {
  return (
    <label>
      {label}{" "}
      <span className="typed">
        <input inputMode="decimal" value={value} onChange={(event) => type(event.target.value)} />
        <span className="unit">{unit}</span>
      </span>
    </label>
  );
}

const Lines = ({ lines }: { readonly lines: readonly string[] }): ReactNode => (
  <ul className="plain said-flow">
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);
