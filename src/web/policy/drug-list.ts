import { readInfusateCsv } from "../../contract/index.ts";
import type { Infusate } from "../../core/infusate/index.ts";
import { readDrugList } from "../storage/event-store.ts";

/** The hospital's own drugs as this device kept them; none where there are none or they no longer read. */
export async function ownDrugs(): Promise<readonly Infusate[]> {
  const csv = await readDrugList();
  const list = csv === undefined ? undefined : readInfusateCsv(csv);
  return list?.kind === "list" ? list.infusates : [];
}
