import { appendFileSync, createReadStream, openSync, readFileSync, readSync, statSync, writeFileSync } from "node:fs";
import { instantInZone, parseCivilDate, type CivilDate } from "../core/calendar/index.ts";
import { storeAddress } from "../store/index.ts";
import { runCommandLine } from "./run.ts";

/** Bytes of a file by their place; it is opened once, and closed when the command ends. */
function rangeOf(name: string): (from: number, to: number) => Promise<Uint8Array> {
  let handle: number | undefined;
  return (from, to) => {
    handle ??= openSync(name, "r");
    const bytes = new Uint8Array(Math.max(0, to - from));
    let filled = 0;
    for (let read = -1; read !== 0 && filled < bytes.length; filled += read)
      read = readSync(handle, bytes, filled, bytes.length - filled, from + filled);
    return Promise.resolve(bytes.subarray(0, filled));
  };
}

// a reader that stops early, such as a pager, is no fault of the answer
process.stdout.on("error", () => process.exit(0));

const { exit, output } = await runCommandLine(process.argv.slice(2), {
  read: (name) => readFileSync(name === "-" ? 0 : name, "utf8"),
  pieces: (name) => ({
    name,
    sizeBytes: statSync(name).size,
    open: () => createReadStream(name, { highWaterMark: 262_144 }),
    range: rangeOf(name),
  }),
  write: (name, bytes) => writeFileSync(name, bytes),
  append: (name, bytes) => appendFileSync(name, bytes),
  now: () => new Date().toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" }),
  moment: () => instantInZone(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone),
  // the day of this machine's own clock, as a person there would write it
  stamp: () => `${new Date().toISOString().slice(0, 19)}Z`,
  store: storeAddress(process.env["VEINWRIGHT_DATA"]),
  showsStack: process.env["VEINWRIGHT_STACK"] === "1",
  today: () => parseCivilDate(new Date().toLocaleDateString("sv-SE")) as CivilDate,
});
// a file that is written out ends as it ends: one sign more and its checksum would not agree
process.stdout.write(output.endsWith("\n") ? output : `${output}\n`);
process.exitCode = exit;
