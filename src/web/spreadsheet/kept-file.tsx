import type { ReactNode } from "react";

/** A small text file of an earlier time. */
export function KeptFile({
  label,
  name,
  take,
}: {
  readonly label: string;
  readonly name: string;
  readonly take: (text: string) => void;
}): ReactNode {
  return (
    <label className="kept-file">
      {label}
      <input
        type="file"
        data-import={name}
        accept=".json"
        onChange={(event) => {
          const file = event.target.files?.[0];
          if (file) void file.text().then(take);
          event.target.value = "";
        }}
      />
    </label>
  );
}
