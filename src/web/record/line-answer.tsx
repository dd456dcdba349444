import type { ReactNode } from "react";
import type { LineView } from "../../register/index.ts";

/** May it be used, and what is due. */
export function LineAnswer({ line }: { readonly line: LineView }): ReactNode {
  return <p className="headline">{line.end ? "This line is out." : "In place."}</p>;
}
