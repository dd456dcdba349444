import { useMemo, useState, type ReactNode } from "react";
import { readMeasures } from "../../audit/index.ts";
import { countWords, sayMeasureFault } from "../../language/index.ts";
import { useRecord } from "../record/record-context.tsx";
import { readCountAddress } from "./count-address.ts";
import { CountPage } from "./count-page.tsx";
import { tableOfRecord, type CountSource } from "./count-table.ts";
import { PackPage } from "./pack-page.tsx";
import "./count.css";

const reading = readMeasures();

/** The Count door: a table of rows, from the record here or from a file, and two pages on it. */
export function CountPart({ path }: { readonly path: string }): ReactNode {
  const { register, policy } = useRecord();
  const { histories } = register;
  const [file, setFile] = useState<CountSource>();
  // the rows stand as of the last thing written; a clock that runs on would count anew at every draw
  const record = useMemo(
    (): CountSource => ({
      kind: "record",
      name: countWords.record,
      table: tableOfRecord({ histories }, policy, register.now()),
    }),
    // oxlint-disable-next-line exhaustive-deps
    [histories, policy],
  );
  if (reading.kind === "faults") return <p className="headline">{reading.faults.map(sayMeasureFault).join(" ")}</p>;
  const source = file ?? record;
  const shared = { source, measures: reading.measures, address: readCountAddress(path), policy };
  return path.startsWith("/count/pack") ? (
    <PackPage {...shared} practice={source.kind === "record" && register.rehearsing} printedAt={register.now()} />
  ) : (
    <CountPage
      {...shared}
      practice={source.kind === "record" && register.rehearsing}
      open={setFile}
      today={record.table.asOf}
    />
  );
}
