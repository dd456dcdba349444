import { useContext, type ReactNode } from "react";
import type { Side } from "../../core/arm/index.ts";
import { armBarReasons, armBarSentence, armWords, measureAgain } from "../../language/index.ts";
import { Choice, EntryContext, Field, YES_NO, echoOf } from "./field.tsx";

const VEINS = [
  ["basilic", "basilic"],
  ["brachial", "brachial"],
  ["cephalic", "cephalic"],
  ["axillary", "axillary"],
] as const;

/** One arm: reasons against it first, then its length, then the veins as the probe meets them. */
export function ArmEntry({ side }: { readonly side: Side }): ReactNode {
  const { fields, type } = useContext(EntryContext);
  const prefix = `arms.${side}`;
  const veins = indexes(fields, `${prefix}.surveys.`);
  return (
    <section className="arm" aria-label={armWords(side)}>
      <h3>{armWords(side)}</h3>
      <Choice path={`${prefix}.barsAsked`} label="Reasons against this arm asked?" options={YES_NO} />
      {fields[`${prefix}.barsAsked`] === "yes" ? (
        <details open={armBarReasons.some((reason) => fields[`${prefix}.bar.${reason}`] === "yes")}>
          <summary>
            Reasons found:{" "}
            {armBarReasons
              .filter((reason) => fields[`${prefix}.bar.${reason}`] === "yes")
              .map(armBarSentence)
              .join("; ") || "none"}
          </summary>
          {armBarReasons.map((reason) => (
            <label key={reason} className="tick">
              <input
                type="checkbox"
                checked={fields[`${prefix}.bar.${reason}`] === "yes"}
                data-path={`${prefix}.bar.${reason}`}
                onChange={(event) => type(`${prefix}.bar.${reason}`, event.target.checked ? "yes" : "")}
              />
              {armBarSentence(reason)}
            </label>
          ))}
        </details>
      ) : null}
      <Field path={`${prefix}.armLengthCm`} label="Arm length" unit="cm" />
      <details>
        <summary>Past lines in this arm</summary>
        {[0, 1, 2].map((row) => (
          <div key={row} className="past-line">
            <Field path={`${prefix}.pastLines.${row}.year`} label="Year" unit="year" />
            <Field path={`${prefix}.pastLines.${row}.atCm`} label="It entered at" unit="cm" />
            <Choice path={`${prefix}.pastLines.${row}.vein`} label="Vein" options={VEINS} />
          </div>
        ))}
      </details>
      {veins.map((index) => (
        <VeinEntry key={index} prefix={`${prefix}.surveys.${index}`} />
      ))}
      <button
        type="button"
        className="add"
        onClick={() => {
          const next = (veins.at(-1) ?? -1) + 1;
          type(`${prefix}.surveys.${next}.vein`, VEINS[Math.min(next, 3)]?.[0] ?? "basilic");
        }}
      >
        + a vein in the {armWords(side)}
      </button>
    </section>
  );
}

function VeinEntry({ prefix }: { readonly prefix: string }): ReactNode {
  const { fields } = useContext(EntryContext);
  const typed = indexes(fields, `${prefix}.stations.`);
  const rows = Math.max(2, (typed.at(-1) ?? -1) + 2); // one empty row always waits below the last typed
  return (
    <div className="vein-entry">
      <Choice path={`${prefix}.vein`} label="Vein, measured without a tourniquet" options={VEINS} />
      <table className="readings">
        <thead>
          <tr>
            <th scope="col">at, cm</th>
            <th scope="col">wide, mm</th>
            <th scope="col">deep, mm</th>
            <th scope="col">no vein</th>
          </tr>
        </thead>
        <tbody>
          {Array.from({ length: rows }, (_, row) => (
            <Reading key={row} prefix={`${prefix}.stations.${row}`} row={row} />
          ))}
        </tbody>
      </table>
      <details>
        <summary>What the probe saw</summary>
        <Choice
          path={`${prefix}.checks.compressible`}
          label="Compresses at every reading"
          options={[
            ["yes", "yes"],
            ["no", "no"],
          ]}
        />
        <Choice path={`${prefix}.checks.thrombus`} label="Clot seen" options={YES_NO} />
        <Choice
          path={`${prefix}.checks.artery`}
          label="Artery"
          options={[
            ["none", "clear"],
            ["beside", "beside"],
            ["in front", "in front"],
          ]}
        />
        <Choice path={`${prefix}.checks.nerveBeside`} label="Nerve beside" options={YES_NO} />
        <Choice path={`${prefix}.checks.tourniquetOn`} label="Tourniquet on" options={YES_NO} />
      </details>
    </div>
  );
}

function Reading({ prefix, row }: { readonly prefix: string; readonly row: number }): ReactNode {
  const { fields, type, faults, isOld } = useContext(EntryContext);
  const cell = (field: string, name: string) => {
    const path = `${prefix}.${field}`;
    return (
      <td>
        <input
          type="text"
          inputMode="decimal"
          autoComplete="off"
          aria-label={`Reading ${row + 1}: ${name}`}
          data-path={path}
          value={fields[path] ?? ""}
          aria-invalid={faults[path] ? true : undefined}
          title={faults[path] ?? echoOf(fields[path] ?? "", field === "atCm" ? "cm" : "mm")}
          onChange={(event) => type(path, event.target.value)}
        />
        {faults[path] ? <p className="fault">{faults[path]}</p> : null}
        {field === "diameterMm" && isOld(path) ? <p className="again">{measureAgain}</p> : null}
      </td>
    );
  };
  const absent = `${prefix}.veinPresent`;
  return (
    <tr className={isOld(`${prefix}.diameterMm`) ? "old" : undefined}>
      {cell("atCm", "centimetres from the elbow")}
      {cell("diameterMm", "millimetres wide")}
      {cell("depthMm", "millimetres deep")}
      <td className="tick">
        <label>
          <input
            type="checkbox"
            aria-label={`Reading ${row + 1}: no vein here`}
            checked={fields[absent] === "no"}
            onChange={(event) => type(absent, event.target.checked ? "no" : "")}
          />
        </label>
      </td>
    </tr>
  );
}

/** The numbers that stand after a prefix, in order: which veins and readings have been touched. */
export function indexes(fields: Readonly<Record<string, string>>, prefix: string): readonly number[] {
  const found = new Set<number>();
  for (const path of Object.keys(fields))
    if (path.startsWith(prefix)) found.add(Number.parseInt(path.slice(prefix.length), 10));
  return [...found].filter((index) => Number.isFinite(index)).sort((a, b) => a - b);
}
