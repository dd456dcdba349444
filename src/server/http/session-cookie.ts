/** Over TLS the name itself makes the browser hold the cookie to this host, to TLS and to every path (RFC 6265bis). */
const nameOf = (secure: boolean): string => (secure ? "__Host-veinwright" : "veinwright");

/** The session's token from the request's cookies. */
export function tokenFrom(headers: Headers, secure: boolean): string | undefined {
  const wanted = `${nameOf(secure)}=`;
  const found = (headers.get("cookie") ?? "").split(/;\s*/).find((part) => part.startsWith(wanted));
  return found?.slice(wanted.length) || undefined;
}

/** Hands the token to the browser, or with "" takes it back. Script cannot read it and other sites cannot send it. */
export const sessionCookie = (token: string, secure: boolean, seconds: number): string =>
  [
    `${nameOf(secure)}=${token}`,
    "Path=/",
    "HttpOnly",
    "SameSite=Strict",
    `Max-Age=${token === "" ? 0 : seconds}`,
    ...(secure ? ["Secure"] : []),
  ].join("; ");
