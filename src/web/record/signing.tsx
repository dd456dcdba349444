import { useState, type ReactNode } from "react";
import type { Author, Role } from "../../register/index.ts";
import { useRecord } from "./record-context.tsx";

/** The last to sign on this computer in this sitting; asked again at every entry, never taken silently. */
let last: { initials: string; role: Role | "" } = { initials: "", role: "" };

/** Who signs: initials and role, asked at the entry and not at a log-in. */
export function Signing({
  busy,
  question,
  sign,
  word = "Sign and keep",
}: {
  readonly busy: boolean;
  readonly question: string | undefined;
  readonly sign: (author: Author) => void;
  readonly word?: string;
}): ReactNode {
  const { account, roles } = useRecord().register;
  const [who, setWho] = useState(() =>
    last.role === "" || roles.includes(last.role) ? last : { ...last, role: "" as const },
  );
  const [asked, setAsked] = useState<string>();
  const take = (next: typeof who) => {
    last = next;
    setWho(next);
    setAsked(undefined);
  };
  return (
    <form
      className="signing"
      onSubmit={(event) => {
        event.preventDefault();
        const initials = who.initials.trim();
        if (!/^[\p{Letter}.' -]{1,40}$/u.test(initials)) return setAsked("Who signs? Type your initials.");
        if (who.role === "") return setAsked("As what? Choose your role.");
        sign({ initials, role: who.role, account });
      }}
    >
      <label>
        Initials{" "}
        <input
          value={who.initials}
          autoComplete="off"
          data-sign="initials"
          onChange={({ target }) => take({ ...who, initials: target.value })}
        />
      </label>
      <label>
        As{" "}
        <select
          value={who.role}
          data-sign="role"
          onChange={({ target }) => take({ ...who, role: target.value as Role | "" })}
        >
          <option value="">role?</option>
          {roles.map((role) => (
            <option key={role} value={role}>
              {role}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" disabled={busy} data-sign="sign">
        {word}
      </button>
      {(asked ?? question) ? (
        <p className="fault" role="alert">
          {asked ?? question}
        </p>
      ) : null}
    </form>
  );
}
