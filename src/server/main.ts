import { appendFileSync, existsSync, mkdirSync, renameSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  backupStore,
  isHeldElsewhere,
  openPeople,
  openPostgresql,
  openSqlite,
  sqlEventStore,
  storeAddress,
} from "../store/index.ts";
import { backupSentence, brokenLinkSentence, storeInUse, wholeSentences } from "../language/index.ts";
import { verifyStore, type Verification } from "../register/index.ts";
import type { MachineAnswer } from "./server-parts.ts";
import { resetFromConsole } from "./first-account.ts";
import { usualLimits } from "./people/people-limits.ts";
import { readSetting, type Setting } from "./setting.ts";
import { startServer } from "./start-server.ts";

const RESET = "--reset-password";
const LONGEST_LOG = 20_000_000; // bytes

/** Record and people on one connection, with what copies and checks them. */
async function open({ storeUrl, dataFolder, backupFolder, backupsKept }: Setting) {
  const address = storeAddress(storeUrl || dataFolder);
  const connection = await (storeUrl === "" ? openSqlite(address) : openPostgresql(address));
  const store = await sqlEventStore(connection);
  const backupTo = async (folder: string): Promise<MachineAnswer> => {
    const stamp = new Date().toISOString().replace(/\.\d+/, "");
    const { file, verification } = await backupStore(address, folder, stamp);
    const { good, lines } = told(verification);
    return { good, lines: good ? [backupSentence(file, (await store.head()).position)] : lines };
  };
  return {
    connection,
    store,
    verify: async () => told(await verifyStore(store)),
    backup: () => backupTo(join(dataFolder, "backup")),
    ...(backupFolder === "" ? {} : { daily: { folder: backupFolder, keep: backupsKept, make: backupTo } }),
  };
}

const told = (said: Verification): MachineAnswer =>
  said.kind === "whole"
    ? { good: true, lines: wholeSentences(said) }
    : { good: false, lines: [brokenLinkSentence(said.first)] };

/** Gives an account a new password from the machine itself: whoever sits here can read the data folder anyway. */
async function reset(setting: Setting, account: string): Promise<void> {
  const { connection } = await open(setting);
  const parts = { people: await openPeople(connection), limits: usualLimits, now: () => new Date() };
  try {
    const { oneTimePassword, until } = await resetFromConsole(parts, account);
    console.log(
      `One-time password for ${account}: ${oneTimePassword}\nIt is good until ${until}. Its second factor is off.`,
    );
  } catch {
    console.error(`There is no account "${account}". Look at the list of people, or reset "administrator".`);
    process.exitCode = 65;
  }
  await connection.close();
}

async function run(setting: Setting): Promise<void> {
  mkdirSync(setting.dataFolder, { recursive: true, mode: 0o700 });
  const logFile = join(setting.dataFolder, "request.ndjson");
  // one old log is kept beside the new one: the trail is what lasts
  if (existsSync(logFile) && statSync(logFile).size > LONGEST_LOG) renameSync(logFile, `${logFile}.old`);
  const pageFolder = fileURLToPath(new URL("../web", import.meta.url));
  const running = await startServer(setting, await open(setting), pageFolder, (line) =>
    appendFileSync(logFile, `${line}\n`, { mode: 0o600 }),
  );
  if (!running.whole) {
    console.error(
      "The record or its trail is not whole. Keep a copy of the data folder and ask who keeps it to verify.",
    );
  }
  if (running.first) {
    const { account, oneTimePassword, until } = running.first;
    // printed once, on this machine's own console; nobody is let in by a password everybody knows
    console.log(`First start. Account "${account}", one-time password ${oneTimePassword} (until ${until}).`);
  }
  if (running.authorityFile) console.log(`Tablets are to trust ${running.authorityFile} once.`);
  const reach = setting.share ? "shared over TLS" : "this machine only";
  console.log(`Veinwright is at ${running.address}/ (${reach}; Ctrl+C ends it)`);
  let ending = false; // Ctrl+C reaches this process twice, from the terminal and from the script that started it
  const end = () => {
    if (ending) return;
    ending = true;
    running.close().then(
      () => process.exit(0),
      () => process.exit(1),
    );
  };
  process.on("SIGTERM", end);
  process.on("SIGINT", end);
}

process.umask(0o077); // whatever is written here is for its owner alone
const words = process.argv.slice(2);
const resets = words[0] === RESET;
const setting = readSetting(resets ? [] : words, process.env);
if ("refused" in setting) {
  console.error(setting.refused);
  process.exitCode = 64;
} else {
  try {
    await (resets ? reset(setting, words[1] ?? "administrator") : run(setting));
  } catch (error) {
    const why = error instanceof Error ? error.message : "unknown reason";
    const held = isHeldElsewhere(error)
      ? storeInUse(setting.storeUrl === "" ? setting.dataFolder : "the database")
      : why;
    console.error(`The server did not start: ${held}`);
    process.exit(70);
  }
}
