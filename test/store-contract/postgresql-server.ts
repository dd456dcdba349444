import { execFileSync } from "node:child_process";
import { chmodSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { createServer, type AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";

const INSTALLED = "/usr/lib/postgresql";

function programs(): string | undefined {
  const versions = existsSync(INSTALLED) ? readdirSync(INSTALLED).sort((a, b) => Number(b) - Number(a)) : [];
  return versions.map((version) => join(INSTALLED, version, "bin")).find((bin) => existsSync(join(bin, "initdb")));
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((ready) => {
    server.listen(0, "127.0.0.1", ready);
  });
  const { port } = server.address() as AddressInfo;
  await new Promise((closed) => server.close(closed));
  return port;
}

/** Whether a server can be started here; the client alone, which many machines have, is not enough. */
export const hasPostgresql = programs() !== undefined;

export interface PostgresqlServer {
  /** The address of an empty place of its own: a schema, which is quicker to make than a database. */
  readonly url: (name: string) => Promise<string>;
  readonly stop: () => void;
}

/** Starts a PostgreSQL server of its own in a new folder; undefined where PostgreSQL is not installed. */
export async function startPostgresql(): Promise<PostgresqlServer | undefined> {
  const bin = programs();
  if (bin === undefined) return undefined;
  const folder = mkdtempSync(join(tmpdir(), "veinwright-postgresql-"));
  chmodSync(folder, 0o777);
  // the server refuses to run as root: it is started as the user Debian made for it
  const asRoot = process.getuid?.() === 0;
  const prefix = asRoot ? ["setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups"] : [];
  const run = (program: string, args: readonly string[]) => {
    const [command = "", ...words] = [...prefix, join(bin, program), ...args];
    execFileSync(command, words, { stdio: "ignore", cwd: folder });
  };
  const data = join(folder, "data");
  run("initdb", ["-D", data, "-A", "trust", "-U", "app", "--no-locale", "-E", "UTF8", "--data-checksums"]);
  const port = await freePort();
  const options = `-p ${port} -k ${folder} -c listen_addresses=127.0.0.1`;
  run("pg_ctl", ["-D", data, "-w", "-l", join(folder, "log"), "-o", options, "start"]);
  return {
    url: async (name) => {
      const url = `postgresql://app@127.0.0.1:${port}/postgres`;
      const client = new pg.Client({ connectionString: url });
      await client.connect();
      await client.query(`CREATE SCHEMA IF NOT EXISTS ${name}`);
      await client.end();
      return `${url}?options=-c%20search_path%3D${name}`;
    },
    stop: () => {
      run("pg_ctl", ["-D", data, "-m", "immediate", "stop"]);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
