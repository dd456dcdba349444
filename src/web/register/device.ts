import { instantInZone, type Instant } from "../../core/calendar/index.ts";
import { clockIsBehind } from "../../core/identity/index.ts";
import { offersOf, seal, seenOf, type DeviceChange, type SealedEvent, type StoredEvent } from "../../register/index.ts";
import { DeviceLog } from "./device-log.ts";
import { deviceSnapshot, type DeviceSnapshot, type DeviceStanding } from "./device-snapshot.ts";
import { watchIdle } from "./idle-watch.ts";
import type { Opened, SignedIn, Writing } from "./register.ts";
import type { Reply, ServerPort, SignIn } from "./server-port.ts";
import { SyncLoop } from "./sync-loop.ts";
import { ended, syncRound, type RoundEnd } from "./sync-round.ts";
import { deviceName, waitSeconds, type DeviceNotes, type DeviceSettings } from "./vault/device-notes.ts";
import { Vault } from "./vault/vault.ts";

/**
 * This device: its vault, the log folded from it, and the rounds with the server; one in every tab. What a page sees of it is read in
 * device-snapshot.ts. Longer than 300 lines because its doors share one standing, and a second owner of it could disagree.
 */
export class Device {
  readonly #server: ServerPort | undefined;
  readonly #practice: readonly StoredEvent[];
  #vault: Vault | undefined;
  readonly #log: DeviceLog;
  readonly #loop: SyncLoop;
  #tabs: BroadcastChannel | undefined;
  #standing: DeviceStanding;
  #snapshot: DeviceSnapshot;
  readonly #listeners = new Set<() => void>();
  #waitUntil = 0;
  /** Whether this tab knows who is signed in at the server. */
  #knowsWho = false;
  #stopIdle: () => void = () => undefined;
  #forgetTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(server: ServerPort | undefined, practice: readonly StoredEvent[]) {
    this.#server = server;
    this.#practice = practice;
    this.#log = new DeviceLog(() => this.#show());
    this.#loop = new SyncLoop(() => this.#round());
    this.#standing = {
      ready: false,
      hidden: false,
      keepsNothing: false,
      unreadable: false,
      end: undefined,
      notes: undefined,
      clockBehind: undefined,
    };
    this.#snapshot = deviceSnapshot(this.#log, this.#vault, this.#standing, practice, undefined);
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly snapshot = (): DeviceSnapshot => this.#snapshot;

  now(): Instant {
    return instantInZone(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone);
  }

  /** Opens the store, reads what may be read, and begins to ask the server; gives what ends it. */
  start(): () => void {
    let ended = false;
    void this.#open().finally(() => {
      if (ended) return;
      this.#set({ ready: true });
      this.#loop.start();
    });
    return () => {
      ended = true;
      this.#loop.stop();
      this.#stopIdle();
      clearTimeout(this.#forgetTimer);
      this.#tabs?.close();
      this.#vault?.close();
    };
  }

  async write(writings: readonly Writing[], policyVersion: string): Promise<void> {
    const { histories } = this.#snapshot;
    const account = this.#standing.notes?.account ?? "";
    const events = writings.map(({ subject, type, data, happenedAt, author }): SealedEvent =>
      seal({
        id: newId(),
        subject,
        type,
        shape: 1,
        happenedAt,
        writtenAt: this.now(),
        author: { ...author, account: author.account || account },
        device: this.#snapshot.device,
        policyVersion,
        seen: seenOf(histories.get(subject)),
        data: data as unknown as SealedEvent["data"],
      }),
    );
    await this.keep([{ kind: "written", events }]);
  }

  /** Keeps changes durably, tells the other tabs and then the server. */
  async keep(changes: readonly DeviceChange[]): Promise<void> {
    try {
      await this.#log.take(changes);
      this.#tell("kept");
    } finally {
      // what could not be kept here may still be taken by the server
      this.#loop.poke();
    }
  }

  async keepAgain(): Promise<void> {
    await this.#log.keepAgain();
    this.#tell("kept");
  }

  readonly syncNow = (): void => this.#loop.poke();

  async setUp(person: string, secret: string): Promise<string> {
    if (!this.#vault) throw new Error("this browser keeps nothing");
    const recovery = await this.#vault.setUp(person, secret);
    // asks the browser not to clear this store when the disk runs low; it may say no
    await navigator.storage.persist().catch(() => false);
    this.#tell("keys");
    await this.#opened();
    return recovery;
  }

  async open(person: string, secret: string): Promise<Opened> {
    const seconds = Math.ceil((this.#waitUntil - performance.now()) / 1000);
    if (seconds > 0) return { kind: "wait", seconds };
    if (!(await this.#vault?.unlock(person, secret))) return this.#wrong("wrong secret");
    await this.#opened();
    return { kind: "open" };
  }

  async recover(typed: string, person: string, secret: string): Promise<Opened> {
    const came = (await this.#vault?.recover(typed, person, secret)) ?? "another key";
    if (came !== "open") return { kind: came };
    this.#tell("keys");
    await this.#opened();
    return { kind: "open" };
  }

  async giveSecret(own: { readonly person: string; readonly secret: string }, person: string, secret: string) {
    const given = (await this.#vault?.giveSecret(own, person, secret)) ?? false;
    if (given) this.#tell("keys");
    else await this.#wrong("wrong secret");
    this.#show();
    return given;
  }

  readonly hide = (): void => {
    if (this.#vault?.state === "open") this.#set({ hidden: true });
  };

  readonly signOut = (): void => {
    this.#tell("shut");
    this.#shut();
  };

  async changeNotes(change: Partial<DeviceNotes>): Promise<void> {
    const { notes } = this.#standing;
    // a full device keeps no note either; what it would have said still holds in this tab
    const noted = await this.#vault?.note(change).catch(() => notes && { ...notes, ...change });
    if (noted) this.#set({ notes: noted });
  }

  nameDevice(name: string): Promise<void> {
    return this.changeNotes({ device: deviceName(name) });
  }

  async setSettings(settings: DeviceSettings): Promise<void> {
    await this.changeNotes({ settings });
    this.#watch();
  }

  async signIn(who: SignIn): Promise<SignedIn> {
    const reply = await (this.#server?.signIn(who) ?? { kind: "no server" as const });
    if (reply.kind !== "answer") return reply;
    const { account, roles } = reply.value;
    await this.changeNotes({ account, roles, signOutOwed: false });
    this.#knowsWho = true;
    this.#loop.poke();
    return { kind: "signed in", me: reply.value, secretFirst: this.#secretFirst };
  }

  async choosePassword(now: string, next: string): Promise<Reply<unknown>> {
    const reply = await (this.#server?.password(now, next) ?? { kind: "no server" as const });
    if (reply.kind === "answer") this.#loop.poke();
    return reply;
  }

  async leaveServer(): Promise<void> {
    if (!this.#standing.notes?.account) return;
    this.#knowsWho = false;
    await this.changeNotes({ account: "", roles: [], signOutOwed: true });
    const told = await this.#endSession();
    if (told) this.#ended({ kind: "sign in" });
  }

  /** Whether the server knows that nobody is signed in here any more. */
  async #endSession(): Promise<boolean> {
    const reply = await this.#server?.signOut();
    if (reply?.kind === "unreachable" || reply?.kind === "wait") return false;
    await this.changeNotes({ signOutOwed: false });
    return true;
  }

  /** A shared record would be copied to where anybody who takes this device can read it. */
  get #secretFirst(): boolean {
    return this.#vault?.state === "clear" && this.#server?.onThisMachine === false;
  }

  /** Asks who is signed in; undefined where a round may go on. */
  async #askWho(server: ServerPort): Promise<RoundEnd | undefined> {
    if (this.#standing.notes?.signOutOwed && !(await this.#endSession())) return { kind: "unreachable" };
    if (!this.#knowsWho) {
      const who = await server.me();
      // a server without accounts has nobody to name
      if (who.kind !== "answer" && who.kind !== "no server") return ended(who);
      if (who.kind === "answer") {
        await this.changeNotes({ account: who.value.account, roles: who.value.roles });
        this.#knowsWho = true;
      }
    }
    return this.#knowsWho && this.#secretFirst ? { kind: "secret first" } : undefined;
  }

  async #open(): Promise<void> {
    try {
      this.#vault = await Vault.open();
      this.#standing = { ...this.#standing, notes: await this.#vault.note() };
    } catch {
      return this.#set({ keepsNothing: true });
    }
    this.#waitUntil = performance.now() + waitSeconds(this.#standing.notes?.wrongTries ?? 0) * 1000;
    this.#log.attach(this.#vault);
    this.#listen();
    if (this.#vault.state !== "clear") return undefined;
    await this.#read();
    // what was written while the store was opening
    return this.#log.keepAgain().catch(() => undefined);
  }

  async #read(): Promise<void> {
    try {
      await this.#log.openAgain();
    } catch {
      return this.#set({ unreadable: true });
    }
    const last = this.#log.record.queue.at(-1)?.writtenAt ?? this.#log.record.known.at(-1)?.writtenAt;
    const behind = last !== undefined && clockIsBehind(Date.now(), Date.parse(last));
    this.#set({ unreadable: false, clockBehind: behind ? last : undefined });
    return undefined;
  }

  async #opened(): Promise<void> {
    if (!this.#standing.hidden || this.#log.record.known.length === 0) await this.#read();
    await this.changeNotes({ wrongTries: 0 });
    this.#set({ hidden: false });
    this.#watch();
    clearTimeout(this.#forgetTimer);
    const hours = this.#standing.notes?.settings.forgetAfterHours ?? 12;
    this.#forgetTimer = setTimeout(() => this.#shut(), hours * 3_600_000);
    // what was written while it was shut is kept now
    await this.#log.keepAgain().catch(() => undefined);
    this.#loop.poke();
  }

  async #wrong(kind: "wrong secret"): Promise<Opened> {
    const wrongTries = (this.#standing.notes?.wrongTries ?? 0) + 1;
    await this.changeNotes({ wrongTries });
    this.#waitUntil = performance.now() + waitSeconds(wrongTries) * 1000;
    return { kind };
  }

  #shut(): void {
    if (this.#vault?.state !== "open") return;
    this.#vault.forget();
    this.#log.forget();
    this.#set({ hidden: false });
  }

  #watch(): void {
    this.#stopIdle();
    this.#stopIdle = watchIdle(this.#standing.notes?.settings.lockAfterMinutes ?? 15, this.hide);
  }

  async #round(): Promise<boolean> {
    if (!this.#server || this.#vault?.state === "locked") return true;
    const end = (await this.#askWho(this.#server)) ?? (await this.#syncRound(this.#server));
    if (end.kind === "sign in") this.#knowsWho = false;
    if (end.kind === "in touch") await this.changeNotes({ lastContact: this.now() });
    this.#ended(end);
    this.#tabs?.postMessage(end);
    return end.kind === "in touch";
  }

  #syncRound(server: ServerPort): Promise<RoundEnd> {
    return syncRound(server, {
      record: () => this.#log.record,
      offers: () => offersOf({ ...this.#log.record, queue: this.#snapshot.toSend }),
      // a device that is full still learns what the server took: in memory, until it has room
      take: async (changes) => {
        await this.#log.take(changes).catch(() => undefined);
        this.#tell("kept");
      },
    });
  }

  #ended(end: RoundEnd): void {
    this.#set({ end });
  }

  #listen(): void {
    if (!("BroadcastChannel" in globalThis)) return;
    this.#tabs = new BroadcastChannel("veinwright-device");
    this.#tabs.onmessage = ({ data }: MessageEvent<"kept" | "keys" | "shut" | RoundEnd>) => {
      if (data === "kept") void this.#log.catchUp().catch(() => this.#set({ unreadable: true }));
      else if (data === "keys") void this.#vault?.readPeople().then(() => this.#keysChanged());
      else if (data === "shut") this.#shut();
      else void this.changeNotes({}).then(() => this.#ended(data));
    };
  }

  /** Another tab set the first secret: this one shows nothing until it is given it too. */
  #keysChanged(): void {
    if (this.#vault?.state === "locked") this.#log.forget();
    this.#show();
  }

  #tell(what: "kept" | "keys" | "shut"): void {
    this.#tabs?.postMessage(what);
  }

  #set(change: Partial<DeviceStanding>): void {
    this.#standing = { ...this.#standing, ...change };
    this.#show();
  }

  readonly #show = (): void => {
    this.#snapshot = deviceSnapshot(this.#log, this.#vault, this.#standing, this.#practice, this.#snapshot);
    const { unsent } = this.#snapshot;
    if (this.#vault && this.#vault.state !== "locked" && unsent !== this.#standing.notes?.unsent) {
      // shown while the device is locked, so it is noted in the clear: a number, nothing more
      this.#standing = {
        ...this.#standing,
        ...(this.#standing.notes && { notes: { ...this.#standing.notes, unsent } }),
      };
      void this.#vault.note({ unsent }).catch(() => undefined);
    }
    for (const listener of this.#listeners) listener();
  };
}

/** A random identifier; a page outside a secure context has no randomUUID and makes the same from random bytes. */
export function newId(): string {
  if ("randomUUID" in crypto) return crypto.randomUUID();
  const bytes = (crypto as Crypto).getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
