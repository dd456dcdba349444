import { randomBytes } from "node:crypto";
import * as client from "openid-client";

/** Where the house's own sign-in is and who this server is there. */
export interface OutsideSetting {
  readonly issuer: string;
  readonly clientId: string;
  readonly clientSecret: string;
  /** Where the browser comes back to: this server's address and /api/openid/answer. */
  readonly redirectUri: string;
  /** Loopback only: a sign-in without TLS, for a test. */
  readonly plainHttp?: boolean;
}

interface Begun {
  readonly verifier: string;
  readonly state: string;
  readonly nonce: string;
  readonly atMs: number;
}

const TEN_MINUTES_MS = 600_000;

/**
 * Sign-in by the house's own accounts: OpenID Connect Core 1.0 with the code flow, PKCE (RFC 7636), state and nonce.
 * It says who a person is and nothing else; no role comes from outside.
 */
export class OutsideSignIn {
  readonly #setting: OutsideSetting;
  readonly #begun = new Map<string, Begun>();
  #found: Promise<client.Configuration> | undefined;

  constructor(setting: OutsideSetting) {
    this.#setting = setting;
  }

  /** Where to send the browser, and the key it brings back in a cookie of its own. */
  async begin(nowMs: number): Promise<{ readonly url: string; readonly key: string }> {
    for (const [key, { atMs }] of this.#begun) if (nowMs - atMs > TEN_MINUTES_MS) this.#begun.delete(key);
    const begun: Begun = {
      verifier: client.randomPKCECodeVerifier(),
      state: client.randomState(),
      nonce: client.randomNonce(),
      atMs: nowMs,
    };
    const url = client.buildAuthorizationUrl(await this.#configuration(), {
      redirect_uri: this.#setting.redirectUri,
      scope: "openid",
      code_challenge: await client.calculatePKCECodeChallenge(begun.verifier),
      code_challenge_method: "S256",
      state: begun.state,
      nonce: begun.nonce,
    });
    const key = randomBytes(32).toString("base64url");
    this.#begun.set(key, begun);
    return { url: url.href, key };
  }

  /** Who came back; undefined when nothing vouches for them. A key is good once. */
  async end(
    key: string,
    search: string,
    nowMs: number,
  ): Promise<{ readonly issuer: string; readonly subject: string } | undefined> {
    const begun = this.#begun.get(key);
    this.#begun.delete(key);
    if (!begun || nowMs - begun.atMs > TEN_MINUTES_MS) return undefined;
    try {
      const tokens = await client.authorizationCodeGrant(
        await this.#configuration(),
        new URL(search, this.#setting.redirectUri),
        {
          pkceCodeVerifier: begun.verifier,
          expectedState: begun.state,
          expectedNonce: begun.nonce,
          idTokenExpected: true,
        },
      );
      const claims = tokens.claims();
      return claims && { issuer: claims.iss, subject: claims.sub };
    } catch {
      return undefined;
    }
  }

  #configuration(): Promise<client.Configuration> {
    const { issuer, clientId, clientSecret, plainHttp } = this.#setting;
    this.#found ??= client
      .discovery(
        new URL(issuer),
        clientId,
        clientSecret,
        undefined,
        plainHttp ? { execute: [client.allowInsecureRequests] } : {},
      )
      .catch((error: unknown) => {
        this.#found = undefined; // asked again next time
        throw error;
      });
    return this.#found;
  }
}
