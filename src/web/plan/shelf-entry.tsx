import { useContext, type ReactNode } from "react";
import { demoShelf } from "../../practice/index.ts";
import { EntryContext, Field } from "./field.tsx";
import { indexes } from "./arm-entry.tsx";

/** The shelf of this plan: the invented one until a person types their own, label by label. */
export function ShelfEntry(): ReactNode {
  const { fields, type } = useContext(EntryContext);
  const own = indexes(fields, "shelf.").filter((index) => (fields[`shelf.${index}.name`] ?? "") !== "");
  const add = () => {
    const next = (indexes(fields, "shelf.").at(-1) ?? -1) + 1;
    type(`shelf.${next}.id`, `own-${next}`);
    type(`shelf.${next}.name`, `catheter ${next + 1}`);
  };
  /** Copies the practice shelf into fields, to be changed into one's own. */
  const copy = () => {
    for (const [index, catheter] of demoShelf.entries()) {
      const prefix = `shelf.${index}`;
      const put = (field: string, value: unknown) => {
        if (typeof value === "string" || typeof value === "number") type(`${prefix}.${field}`, String(value));
        else if (typeof value === "boolean") type(`${prefix}.${field}`, value ? "yes" : "no");
      };
      for (const [field, value] of Object.entries(catheter)) put(field, value);
    }
  };
  const remove = (index: number) => {
    for (const path of Object.keys(fields)) if (path.startsWith(`shelf.${index}.`)) type(path, "");
  };
  return (
    <details className="shelf">
      <summary>
        The shelf:{" "}
        {own.length === 0 ? `practice shelf, ${demoShelf.length} invented catheters` : `${own.length} of your own`}
      </summary>
      <p className="soft">Type what the label says. A blank is asked about, never guessed.</p>
      {own.map((index) => (
        <div key={index} className="catheter-entry">
          <Field path={`shelf.${index}.name`} label="Name" wide />
          <Field path={`shelf.${index}.nominalFrench`} label="Size" unit="Fr" />
          <Field path={`shelf.${index}.outsideDiameterMm`} label="True width at the vein" unit="mm" />
          <Field path={`shelf.${index}.lumens`} label="Lumens" unit="lumens" />
          <Field path={`shelf.${index}.lengthCm`} label="Length" unit="cm" />
          <Field path={`shelf.${index}.flowLabelMlPerHour`} label="Flow on the label" unit="mL/h" />
          <Field path={`shelf.${index}.contrastLabelMlPerSecond`} label="Contrast on the label" unit="mL/s" />
          <button type="button" className="add" onClick={() => remove(index)}>
            − {fields[`shelf.${index}.name`]}
          </button>
        </div>
      ))}
      <button type="button" className="add" onClick={add}>
        + a catheter of your own
      </button>
      {own.length === 0 ? (
        <button type="button" className="add" onClick={copy}>
          + start from the practice shelf
        </button>
      ) : null}
    </details>
  );
}
