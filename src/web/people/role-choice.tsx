import type { ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import { ACCOUNT_ROLES, type AccountRole } from "../../register/index.ts";

/** The roles of an account, each pressed or not. */
export function RoleChoice({
  roles,
  choose,
}: {
  readonly roles: readonly AccountRole[];
  readonly choose: (roles: readonly AccountRole[]) => void;
}): ReactNode {
  return (
    <fieldset className="role-list">
      <legend>{peopleWords.roles}</legend>
      {ACCOUNT_ROLES.map((role) => (
        <label key={role}>
          <input
            type="checkbox"
            checked={roles.includes(role)}
            data-role={role}
            onChange={({ target }) => choose(target.checked ? [...roles, role] : roles.filter((held) => held !== role))}
          />
          {role}
        </label>
      ))}
    </fieldset>
  );
}
