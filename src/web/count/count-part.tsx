import { useMemo, useState, type ReactNode } from "react";
import { lotRowsFromRegister, readMeasures, readYardsticks } from "../../audit/index.ts";
import { sayMeasureFault, sayYardstickFault } from "../../language/index.ts";
import { agreedTable } from "../spreadsheet/agreed-table.ts";
import { lotOf, useAll, useRecord } from "../record/record-context.tsx";
import { readCountAddress } from "./count-address.ts";
import { CountPage } from "./count-page.tsx";
import { sourceOfRecord, type CountSource } from "./count-table.ts";
import { PackPage } from "./pack-page.tsx";
import "./count.css";
import "./count-print.css";

const reading = readMeasures();
const elsewhere = readYardsticks(reading.kind === "faults" ? [] : reading.measures);

/** The Count door: a table of rows, from the record here or from a file, and two pages on it. */
export function CountPart({ path }: { readonly path: string }): ReactNode {
  const { register, policy } = useRecord();
  // somebody who has just agreed to lines comes to count these, and not the record
  const [file, setFile] = useState<CountSource | undefined>(() => {
    const agreed = path.includes("source=agreed") ? agreedTable() : undefined;
    return agreed && { kind: "file", name: agreed.fileName, table: agreed.table };
  });
  const lotViews = useAll("lot", lotOf);
  const lots = useMemo(() => lotRowsFromRegister(lotViews), [lotViews]);
  const record = sourceOfRecord(register, policy);
  if (reading.kind === "faults") return <p className="headline">{reading.faults.map(sayMeasureFault).join(" ")}</p>;
  if (elsewhere.kind === "faults")
    return <p className="headline">{elsewhere.faults.map(sayYardstickFault).join(" ")}</p>;
  const source = file ?? record;
  const { yardsticks } = elsewhere;
  const shared = { source, measures: reading.measures, yardsticks, address: readCountAddress(path), policy };
  return path.startsWith("/count/pack") ? (
    <PackPage
      {...shared}
      practice={source.kind === "record" && register.rehearsing}
      printedAt={register.now()}
      lots={source.kind === "record" ? lots : undefined}
    />
  ) : (
    <CountPage
      {...shared}
      practice={source.kind === "record" && register.rehearsing}
      open={setFile}
      today={record.table.asOf}
    />
  );
}
