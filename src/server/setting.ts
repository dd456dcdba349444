import { hostname, networkInterfaces } from "node:os";
import { join } from "node:path";
import { isPostgresql } from "../store/index.ts";

/** How this server was asked to run. */
export interface Setting {
  readonly port: number;
  readonly portGiven: boolean;
  readonly host: string;
  readonly dataFolder: string;
  /** A postgresql:// address, "" for a file in the data folder. */
  readonly storeUrl: string;
  readonly share: boolean;
  /** Names and addresses people type to reach it. */
  readonly names: readonly string[];
  /** The house's own certificate and key, both or neither. */
  readonly certificateFile: string;
  readonly keyFile: string;
  /** Where the server puts a backup a day by itself, "" for nowhere; and how many of them it keeps. */
  readonly backupFolder: string;
  readonly backupsKept: number;
  /** A file with issuer, clientId and clientSecret of the house's sign-in, "" for none. */
  readonly openIdFile: string;
}

const FIRST_PORT = 4750;
/** Two weeks: a fault found after a fortnight's leave has a copy from before it. Common practice, no source. */
const USUAL_BACKUPS = 14;
const LOOPBACK = new Set(["127.0.0.1", "::1", "localhost"]);

/** Reads how to run from the words after `npm start --` and the environment; or the one sentence why not. */
export function readSetting(
  words: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): Setting | { readonly refused: string } {
  const wanted = env["PORT"] || String(FIRST_PORT);
  if (!/^\d+$/.test(wanted) || Number(wanted) < 1 || Number(wanted) > 65_535) {
    return { refused: `PORT is "${wanted}"; it is a whole number from 1 to 65535.` };
  }
  const unknown = words.find((word) => word.startsWith("-") && word !== "--share");
  if (unknown !== undefined)
    return { refused: `"${unknown}" is not known. Write --share and the names to be reached by.` };
  const share = words.includes("--share") || env["VEINWRIGHT_SHARE"] === "1";
  const host = env["HOST"] || (share ? "0.0.0.0" : "127.0.0.1");
  if (!share && !LOOPBACK.has(host)) {
    return {
      refused:
        `HOST is "${host}", beyond this machine. Without TLS anybody on the way could read patients' names. ` +
        `Start with: npm start -- --share NAME`,
    };
  }
  const given = [...words.filter((word) => !word.startsWith("-")), ...(env["VEINWRIGHT_NAMES"] ?? "").split(",")]
    .map((name) => name.trim().toLowerCase())
    .filter((name) => name !== "");
  const odd = given.find((name) => !/^[a-z0-9]([a-z0-9.:-]*[a-z0-9])?$/.test(name));
  if (odd !== undefined) return { refused: `"${odd}" is not a name or an address of a machine.` };
  const listened = host === "0.0.0.0" || host === "::" ? [] : [host];
  const [certificateFile, keyFile] = [env["VEINWRIGHT_CERT"] ?? "", env["VEINWRIGHT_KEY"] ?? ""];
  if ((certificateFile === "") !== (keyFile === "")) {
    return { refused: "VEINWRIGHT_CERT and VEINWRIGHT_KEY go together. Give both or neither." };
  }
  // the folder's variable may name a database instead, as it does for the command line
  const data = env["VEINWRIGHT_DATA"] || "data";
  const storeUrl = env["VEINWRIGHT_STORE"] || (isPostgresql(data) ? data : "");
  if (storeUrl !== "" && !isPostgresql(storeUrl)) {
    return { refused: "VEINWRIGHT_STORE is not a postgresql:// address. Leave it out to keep the record in a file." };
  }
  const kept = env["VEINWRIGHT_BACKUPS_KEPT"] || String(USUAL_BACKUPS);
  if (!/^\d{1,4}$/.test(kept) || Number(kept) < 1) {
    return { refused: `VEINWRIGHT_BACKUPS_KEPT is "${kept}"; it is a whole number from 1 to 9999.` };
  }
  const dataFolder = isPostgresql(data) ? "data" : data;
  const backups = env["VEINWRIGHT_BACKUP"] || join(dataFolder, "backup", "daily");
  return {
    port: Number(wanted),
    portGiven: Boolean(env["PORT"]),
    host,
    dataFolder,
    backupFolder: backups === "off" ? "" : backups,
    backupsKept: Number(kept),
    storeUrl,
    share,
    names: [...new Set(["localhost", "127.0.0.1", ...(share && given.length === 0 ? ownNames() : given), ...listened])],
    certificateFile,
    keyFile,
    openIdFile: env["VEINWRIGHT_OPENID"] ?? "",
  };
}

/** This machine's name and its addresses on the networks it is on. */
const ownNames = (): readonly string[] => [
  hostname().toLowerCase(),
  ...Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .filter(({ family, internal }) => family === "IPv4" && !internal)
    .map(({ address }) => address),
];
