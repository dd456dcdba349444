import { randomUUID } from "node:crypto";
import { readFileSync } from "node:fs";
import { createServer as createTlsServer } from "node:https";
import { serve, type ServerType } from "@hono/node-server";
import type { EventStore } from "../register/index.ts";
import { openPeople, type SqlConnection } from "../store/index.ts";
import { app } from "./app.ts";
import { firstAccount } from "./first-account.ts";
import { OutsideSignIn, type OutsideSetting } from "./openid/outside-sign-in.ts";
import { usualLimits } from "./people/people-limits.ts";
import type { OneTime } from "./people/account.ts";
import { keepDailyBackups, type MakeBackup } from "./record/daily-backup.ts";
import { keepCheckpoints } from "./record/keep-checkpoints.ts";
import { keepSignals } from "./record/keep-signals.ts";
import { PatientReader } from "./record/patient-reader.ts";
import type { MachineAnswer } from "./server-parts.ts";
import type { Setting } from "./setting.ts";
import { certificateFrom } from "./share/certificate-folder.ts";

/** What keeps the record, opened by whoever starts the server. */
export interface Opened {
  readonly connection: SqlConnection;
  /** On the same connection; closing it closes both. */
  readonly store: EventStore;
  readonly backup?: () => Promise<MachineAnswer>;
  readonly verify?: () => Promise<MachineAnswer>;
  /** Where a backup a day goes, how many are kept, and what makes one. */
  readonly daily?: { readonly folder: string; readonly keep: number; readonly make: MakeBackup };
}

export interface Running {
  readonly address: string;
  /** What a tablet is told to trust, where the server made it itself. */
  readonly authorityFile: string | undefined;
  /** There once, at the first start. */
  readonly first: OneTime | undefined;
  /** Whether record and trail followed from their start to their end. */
  readonly whole: boolean;
  readonly close: () => Promise<void>;
}

/** Opens the port: on this machine in the clear, beyond it over TLS and in no other way. */
export async function startServer(
  setting: Setting,
  opened: Opened,
  pageFolder: string,
  log: (line: string) => void,
): Promise<Running> {
  const now = () => new Date();
  const tls = setting.share ? await tlsOf(setting, now()) : undefined;
  const scheme = tls ? "https" : "http";
  const shown = setting.share ? (setting.names[2] ?? "localhost") : "127.0.0.1";
  const people = await openPeople(opened.connection);
  const parts = {
    ...opened,
    people,
    patients: new PatientReader(opened.store),
    limits: usualLimits,
    now,
    secure: tls !== undefined,
    hostNames: [...setting.names, "[::1]"],
    log,
    newId: randomUUID,
  };
  if (tls && (await people.persons.list()).length === 0) {
    throw new Error("there is no account yet. Start once without --share and choose the administrator's password.");
  }
  const first = await firstAccount(parts);
  const record = (await opened.verify?.()) ?? { good: true };
  const whole = record.good && (await people.trail.firstBroken()) === undefined;
  // a record that does not follow is kept as it was found
  const endCheckpoints = whole ? await keepCheckpoints(opened.store, now, log) : undefined;
  // nor is a copy of it let push out the good ones
  const daily = whole && opened.daily ? keepDailyBackups(opened.daily, now, log) : undefined;
  const signals = whole ? keepSignals(opened.store, now, randomUUID, log) : undefined;
  const { server, address } = await onFreePort(setting, async (port) => {
    const at = `${scheme}://${shown}:${port}`;
    const outside = setting.openIdFile === "" ? {} : { outside: outsideFrom(setting.openIdFile, at) };
    const { fetch } = app(pageFolder, { ...parts, ...outside, ...(daily ? { backups: daily.standing } : {}) });
    return { address: at, server: await listen(fetch, port, setting.host, tls) };
  });
  return {
    address,
    authorityFile: tls?.authorityFile,
    first,
    whole,
    close: async () => {
      endCheckpoints?.();
      await daily?.end();
      await signals?.end();
      await new Promise<void>((resolve) => {
        server.close(() => resolve());
        // a browser that holds its connection open would hold the end up
        if ("closeIdleConnections" in server) server.closeIdleConnections();
      });
      await opened.store.close(); // and with it the connection under it
    },
  };
}

async function tlsOf({ certificateFile, keyFile, dataFolder, names }: Setting, now: Date) {
  if (certificateFile === "") return certificateFrom(dataFolder, names, now);
  const [certificate, key] = [readFileSync(certificateFile, "utf8"), readFileSync(keyFile, "utf8")];
  return { certificate, key, authorityFile: undefined };
}

function outsideFrom(file: string, address: string): OutsideSignIn {
  const given = JSON.parse(readFileSync(file, "utf8")) as Partial<OutsideSetting>;
  const { issuer, clientId, clientSecret, redirectUri = `${address}/api/openid/answer` } = given;
  if (!issuer || !clientId || !clientSecret) {
    throw new Error(`${file} needs issuer, clientId and clientSecret of the house's sign-in.`);
  }
  return new OutsideSignIn({ issuer, clientId, clientSecret, redirectUri });
}

const MORE_PORTS = 50;

/**
 * The first free port from one up: a second start must not fail because the first still runs. The port is taken by
 * listening on it, so that nobody takes it between the asking and the taking; a port that was named is the only one.
 */
async function onFreePort<Result>(
  { port, portGiven }: Setting,
  open: (port: number) => Promise<Result>,
): Promise<Result> {
  for (let at = port; ; at += 1) {
    try {
      return await open(at);
    } catch (error) {
      const taken = (error as { readonly code?: unknown }).code === "EADDRINUSE";
      if (!taken || portGiven || at >= port + MORE_PORTS) throw error;
    }
  }
}

function listen(
  fetch: Parameters<typeof serve>[0]["fetch"],
  port: number,
  hostname: string,
  tls: { readonly certificate: string; readonly key: string } | undefined,
): Promise<ServerType> {
  return new Promise((resolve, reject) => {
    const made = serve(
      tls
        ? {
            fetch,
            port,
            hostname,
            createServer: createTlsServer,
            serverOptions: { cert: tls.certificate, key: tls.key, minVersion: "TLSv1.2" },
          }
        : { fetch, port, hostname },
      () => resolve(made),
    );
    made.once("error", reject);
  });
}
