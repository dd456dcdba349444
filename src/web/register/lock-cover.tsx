import { memo, type ReactNode } from "react";
import type { Register } from "./register.ts";
import { UnlockPage } from "./unlock-page.tsx";

/**
 * Stands between the lock and every page. While the device is locked the pages stay as they were, out of sight and out
 * of reach of keys and readers, so that a half-typed entry is there again when the secret is given.
 */
export function LockCover({
  register,
  children,
}: {
  readonly register: Register;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <>
      {register.locked ? <UnlockPage register={register} /> : null}
      <div className="behind-lock" hidden={register.locked} inert={register.locked}>
        <AsItWas frozen={register.locked}>{children}</AsItWas>
      </div>
    </>
  );
}

/** Is not drawn again while frozen: a page that finds its line gone would throw away what was typed. */
const AsItWas = memo(
  ({ children }: { readonly frozen: boolean; readonly children: ReactNode }) => children,
  (_, next) => next.frozen,
);
