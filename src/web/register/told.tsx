import type { ReactNode } from "react";

/** What went wrong, where it went wrong; nothing otherwise. */
export function Told({ words }: { readonly words: string | undefined }): ReactNode {
  return words ? (
    <p className="fault" role="alert">
      {words}
    </p>
  ) : null;
}
