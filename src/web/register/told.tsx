import type { ReactNode } from "react";

/** What went wrong, in words, beside what was pressed; nothing otherwise. */
export function Told({ words }: { readonly words: string | undefined }): ReactNode {
  return words ? (
    <p className="fault" role="alert">
      {words}
    </p>
  ) : null;
}
