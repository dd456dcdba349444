import { useState, type ReactNode } from "react";

/** Where a file is chosen or dropped; nothing of it leaves the device. */
export function FilePart({ take, busy }: { readonly take: (file: File) => void; readonly busy: boolean }): ReactNode {
  const [over, setOver] = useState(false);
  return (
    <div
      className={over ? "drop over" : "drop"}
      role="presentation"
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const file = event.dataTransfer.files[0];
        if (file && !busy) take(file);
      }}
    >
      <label>
        <b>Choose a spreadsheet, or drop it here</b>
        <span className="soft">CSV or XLSX. It is read on this device. Nothing leaves it.</span>
        <input
          type="file"
          data-import="file"
          accept=".csv,.tsv,.txt,.xlsx"
          disabled={busy}
          onChange={(event) => {
            const file = event.target.files?.[0];
            if (file) take(file);
            event.target.value = "";
          }}
        />
      </label>
    </div>
  );
}
