import { Refusal } from "./refusal.ts";

/**
 * Lets a write through only from this program's own page: the header no form of another site can send, and the
 * browser's own word for where the request comes from. Source: OWASP ASVS 5.0 requirements 3.5.1 to 3.5.3.
 */
export function guardWrite(request: Request): void {
  const { headers } = request;
  const refused = (): never => {
    throw new Refusal("not-from-this-page");
  };
  if (headers.get("x-veinwright") !== "1") refused();
  const site = headers.get("sec-fetch-site");
  if (site !== null && site !== "same-origin") refused();
  const origin = headers.get("origin");
  // a browser that does not say the site still says the origin; the host it was sent to is what it must be
  if (origin !== null && hostOf(origin) !== (headers.get("host") ?? new URL(request.url).host)) refused();
}

/** Refuses a name this server was not given: another site's name may be pointed at this machine by its owner. */
export function guardHost(request: Request, hostNames: readonly string[]): void {
  const host = headersHost(request).replace(/:\d+$/, "").toLowerCase();
  if (!hostNames.includes(host)) throw new Refusal("wrong-address");
}

const headersHost = (request: Request): string => request.headers.get("host") ?? new URL(request.url).host;

function hostOf(origin: string): string | undefined {
  try {
    return new URL(origin).host;
  } catch {
    return undefined;
  }
}
