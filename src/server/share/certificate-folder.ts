import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { makeAuthority, makeServerCertificate, stillFits, type Certified } from "./certificate.ts";

/**
 * The server's certificate for these names, from the data folder; made at the first start, and again when a name is
 * added or its year is over. The authority stays, so that a tablet trusts once. Keys are read by their owner alone.
 */
export async function certificateFrom(
  dataFolder: string,
  names: readonly string[],
  now: Date,
): Promise<Certified & { readonly authorityFile: string }> {
  const folder = join(dataFolder, "tls");
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const authorityFile = join(folder, "authority.pem");
  const authority = await kept(authorityFile, join(folder, "authority-key.pem"), () => makeAuthority(now));
  const [file, keyFile] = [join(folder, "server.pem"), join(folder, "server-key.pem")];
  const fits = existsSync(file) && (await stillFits(readFileSync(file, "utf8"), names, now));
  if (!fits) keep(file, keyFile, await makeServerCertificate(authority, names, now));
  const server = await kept(file, keyFile, () => makeServerCertificate(authority, names, now));
  return { certificate: server.certificate + authority.certificate, key: server.key, authorityFile };
}

async function kept(file: string, keyFile: string, make: () => Promise<Certified>): Promise<Certified> {
  if (!existsSync(file) || !existsSync(keyFile)) keep(file, keyFile, await make());
  return { certificate: readFileSync(file, "utf8"), key: readFileSync(keyFile, "utf8") };
}

function keep(file: string, keyFile: string, { certificate, key }: Certified): void {
  writeFileSync(keyFile, key, { mode: 0o600 });
  writeFileSync(file, certificate, { mode: 0o644 });
}
