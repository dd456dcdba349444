import type { ReactNode } from "react";
import type { Beside } from "../../audit/index.ts";
import { notYours, sayApart, sayYardstick, yardstickSource } from "../../language/index.ts";

/** What others published, small and without a verdict; what was counted otherwise is named and its number left out. */
export function Elsewhere({ beside: { alike, apart } }: { readonly beside: Beside }): ReactNode {
  if (alike.length + apart.length === 0) return null;
  return (
    <details className="elsewhere" data-elsewhere={alike.length} open={alike.length > 0}>
      <summary>What others published</summary>
      <ul>
        {alike.map((one) => (
          <li key={one.id} data-yardstick={one.id}>
            {sayYardstick(one)} <span className="soft">{yardstickSource(one)}.</span>
          </li>
        ))}
        {apart.map((one) => (
          <li key={one.yardstick.id} data-apart={one.yardstick.id} className="soft">
            {sayApart(one)} {yardstickSource(one.yardstick)}.
          </li>
        ))}
      </ul>
      {alike.length > 0 ? <p>{notYours}</p> : null}
    </details>
  );
}
