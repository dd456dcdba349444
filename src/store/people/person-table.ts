import type { AccountRole } from "../../register/index.ts";
import type { SqlConnection } from "../sql/index.ts";

/** A person's account. Empty texts stand for what is not there: no password, no second factor, no outside identity. */
export interface Person {
  /** The name typed at sign-in and kept in every entry; never given to another person. */
  readonly account: string;
  readonly roles: readonly AccountRole[];
  /** Wards whose patients the account sees; none stands for the whole service. */
  readonly units: readonly string[];
  readonly passwordHash: string;
  /** How long the password is: a short one is good only beside a second factor. */
  readonly passwordSigns: number;
  readonly changeWanted: boolean;
  /** A one-time password ends then; "" for one the person chose. */
  readonly passwordUntil: string;
  readonly codeSecret: string;
  readonly codeOn: boolean;
  readonly recoveryHashes: readonly string[];
  readonly disabled: boolean;
  readonly openIdIssuer: string;
  readonly openIdSubject: string;
  readonly madeAt: string;
}

interface PersonRow {
  readonly account: string;
  readonly roles: string;
  readonly units: string;
  readonly password_hash: string;
  readonly password_signs: number;
  readonly change_wanted: number;
  readonly password_until: string;
  readonly code_secret: string;
  readonly code_on: number;
  readonly recovery_hashes: string;
  readonly disabled: number;
  readonly openid_issuer: string;
  readonly openid_subject: string;
  readonly made_at: string;
}

const personOf = (row: PersonRow): Person => ({
  account: row.account,
  roles: JSON.parse(row.roles) as readonly AccountRole[],
  units: JSON.parse(row.units) as readonly string[],
  passwordHash: row.password_hash,
  passwordSigns: row.password_signs,
  changeWanted: row.change_wanted === 1,
  passwordUntil: row.password_until,
  codeSecret: row.code_secret,
  codeOn: row.code_on === 1,
  recoveryHashes: JSON.parse(row.recovery_hashes) as readonly string[],
  disabled: row.disabled === 1,
  openIdIssuer: row.openid_issuer,
  openIdSubject: row.openid_subject,
  madeAt: row.made_at,
});

/** The column of each field that may change, and how its value is written. */
const COLUMN = {
  roles: "roles",
  units: "units",
  passwordHash: "password_hash",
  passwordSigns: "password_signs",
  changeWanted: "change_wanted",
  passwordUntil: "password_until",
  codeSecret: "code_secret",
  codeOn: "code_on",
  recoveryHashes: "recovery_hashes",
  disabled: "disabled",
  openIdIssuer: "openid_issuer",
  openIdSubject: "openid_subject",
} as const;
export type PersonChange = Partial<Pick<Person, keyof typeof COLUMN>>;

const written = (value: unknown): string | number =>
  typeof value === "boolean"
    ? Number(value)
    : typeof value === "number" || typeof value === "string"
      ? value
      : JSON.stringify(value);

export class PersonTable {
  readonly #connection: SqlConnection;

  constructor(connection: SqlConnection) {
    this.#connection = connection;
  }

  async find(account: string): Promise<Person | undefined> {
    const [row] = await this.#connection.all<PersonRow>("SELECT * FROM person WHERE account = ?", [account]);
    return row && personOf(row);
  }

  async findByOpenId(issuer: string, subject: string): Promise<Person | undefined> {
    const [row] = await this.#connection.all<PersonRow>(
      "SELECT * FROM person WHERE openid_issuer = ? AND openid_subject = ? AND openid_subject <> ''",
      [issuer, subject],
    );
    return row && personOf(row);
  }

  async list(): Promise<readonly Person[]> {
    const rows = await this.#connection.all<PersonRow>("SELECT * FROM person ORDER BY account");
    return rows.map(personOf);
  }

  /** Adds a person; false when the account is taken. */
  async add(person: Person): Promise<boolean> {
    const columns = Object.entries(COLUMN);
    const made = await this.#connection.all<{ readonly account: string }>(
      `INSERT INTO person (account, made_at, code_step, ${columns.map(([, column]) => column).join(", ")})
       VALUES (?, ?, 0, ${columns.map(() => "?").join(", ")})
       ON CONFLICT (account) DO NOTHING RETURNING account`,
      [person.account, person.madeAt, ...columns.map(([field]) => written(person[field as keyof typeof COLUMN]))],
    );
    return made.length === 1;
  }

  async change(account: string, change: PersonChange): Promise<void> {
    const fields = (Object.keys(change) as (keyof typeof COLUMN)[]).filter((field) => change[field] !== undefined);
    if (fields.length === 0) return;
    await this.#connection.run(
      `UPDATE person SET ${fields.map((field) => `${COLUMN[field]} = ?`).join(", ")} WHERE account = ?`,
      [...fields.map((field) => written(change[field])), account],
    );
  }

  /** Uses up a step of the second factor; false when it, or a later one, was used before. */
  async useStep(account: string, step: number): Promise<boolean> {
    const used = await this.#connection.all<{ readonly account: string }>(
      "UPDATE person SET code_step = ? WHERE account = ? AND code_step < ? RETURNING account",
      [step, account, step],
    );
    return used.length === 1;
  }

  /** Uses up a recovery code; false when it is none of theirs or was used. */
  async useRecovery(account: string, hash: string): Promise<boolean> {
    const [row] = await this.#connection.all<Pick<PersonRow, "recovery_hashes">>(
      "SELECT recovery_hashes FROM person WHERE account = ?",
      [account],
    );
    const hashes = JSON.parse(row?.recovery_hashes ?? "[]") as readonly string[];
    if (!hashes.includes(hash)) return false;
    // the list as it was read is part of the condition: two that come at once do not both use it
    const used = await this.#connection.all<{ readonly account: string }>(
      "UPDATE person SET recovery_hashes = ? WHERE account = ? AND recovery_hashes = ? RETURNING account",
      [JSON.stringify(hashes.filter((one) => one !== hash)), account, row?.recovery_hashes ?? ""],
    );
    return used.length === 1;
  }
}
