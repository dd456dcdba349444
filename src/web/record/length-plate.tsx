import type { ReactNode } from "react";
import type { LineView } from "../../register/index.ts";

/** Outside length then and now. */
export function LengthPlate({ line }: { readonly line: LineView }): ReactNode {
  return <p>{line.outside.length} lengths</p>;
}
