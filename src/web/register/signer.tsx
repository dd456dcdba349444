import { useState, type ReactNode } from "react";
import { signerWords } from "../../language/index.ts";
import type { Author, Role } from "../../register/index.ts";
import type { Register } from "./register.ts";
import { Told } from "./told.tsx";

/** The people who signed last on this device, the latest first: one tap instead of typing. */
export function lastSigners(
  { histories, device }: Pick<Register, "histories" | "device">,
  most = 5,
): readonly Author[] {
  const latest = new Map<string, { readonly at: string; readonly author: Author }>();
  for (const { events } of histories.values()) {
    for (const { author, device: wrote, writtenAt } of events) {
      if (wrote !== device) continue;
      const key = `${author.initials} ${author.role}`;
      if ((latest.get(key)?.at ?? "") < writtenAt) latest.set(key, { at: writtenAt, author });
    }
  }
  return [...latest.values()]
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .slice(0, most)
    .map(({ author }) => author);
}

/** Who signed last on this page and in which account: shown again to be looked at, never taken silently. */
let last: { readonly account: string; readonly initials: string; readonly role: Role | "" } | undefined;

/** Who signs this entry: initials and role, asked at every entry, because a computer is shared. */
export function Signer({
  register,
  busy,
  question,
  sign,
  word = signerWords.sign,
}: {
  readonly register: Register;
  readonly busy: boolean;
  readonly question: string | undefined;
  readonly sign: (author: Author) => void;
  readonly word?: string;
}): ReactNode {
  const { account, roles } = register;
  const [who, setWho] = useState(() => {
    const own = last?.account === account ? last : { account, initials: "", role: "" as const };
    return own.role === "" || roles.includes(own.role) ? own : { ...own, role: "" as const };
  });
  const [asked, setAsked] = useState<string>();
  const take = (next: { readonly initials: string; readonly role: Role | "" }) => {
    last = { account, initials: next.initials, role: next.role };
    setWho(last);
    setAsked(undefined);
  };
  return (
    <form
      className="signing"
      onSubmit={(event) => {
        event.preventDefault();
        const typed = who.initials.trim();
        if (!/^[\p{Letter}\p{Mark}.' -]{1,40}$/u.test(typed)) return setAsked(signerWords.initialsMissing);
        if (who.role === "") return setAsked(signerWords.roleMissing);
        setAsked(undefined);
        sign({ initials: typed, role: who.role, account });
      }}
    >
      {who.initials === "" ? <LastSigners register={register} take={take} /> : null}
      <label>
        {signerWords.initials}{" "}
        <input
          value={who.initials}
          autoComplete="off"
          data-sign="initials"
          onChange={({ target }) => take({ ...who, initials: target.value })}
        />
      </label>
      <label>
        {signerWords.role}{" "}
        <select
          value={who.role}
          data-sign="role"
          onChange={({ target }) => take({ ...who, role: target.value as Role | "" })}
        >
          <option value="">{signerWords.roleQuestion}</option>
          {roles.map((one) => (
            <option key={one}>{one}</option>
          ))}
        </select>
      </label>
      <button type="submit" disabled={busy} data-sign="sign">
        {word}
      </button>
      <Told words={asked ?? question} />
    </form>
  );
}

function LastSigners({
  register,
  take,
}: {
  readonly register: Register;
  readonly take: (author: Author) => void;
}): ReactNode {
  const last = lastSigners(register).filter(({ role }) => register.roles.includes(role));
  if (last.length === 0) return null;
  return (
    <p className="last-signers">
      <span className="soft">{signerWords.last}</span>{" "}
      {last.map((author) => (
        <button key={`${author.initials} ${author.role}`} type="button" className="quiet" onClick={() => take(author)}>
          {author.initials}, {author.role}
        </button>
      ))}
    </p>
  );
}
