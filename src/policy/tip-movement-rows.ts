import { published, row } from "./row.ts";

const connolly = published("Connolly B and others 2006", "abstract, 85 children, six arm positions");
const newborn = published("Abstract A29 2013, Arch Dis Child 98(suppl 1), newborns", "basilic vein");
const readers = published("25 films read by 23 radiologists, PMC5124912", "abstract");

/** How a tip moves with the arm in children, and how far two readers of one film differ. */
export const tipMovementRows = {
  "tip.child-arm-mean": row(2.2, "rib spaces", "Mean way a child's tip moves with the arm", connolly, [0, 8]),
  "tip.child-arm-most": row(3.5, "rib spaces", "Most way a child's tip moved with the arm", connolly, [0, 10]),
  "tip.newborn-per-degree": row(0.017, "cm per degree", "Newborn, basilic: way in for a degree in", newborn, [0, 0.2]),
  "tip.newborn-per-degree-low": row(-0.053, "cm per degree", "Lower end of that way", newborn, [-0.5, 0.5]),
  "tip.newborn-per-degree-high": row(0.14, "cm per degree", "Upper end of that way", newborn, [-0.5, 0.5]),
  "tip.readers-low": row(-2.5, "cm", "Lower limit between two readers of one film", readers, [-6, 0]),
  "tip.readers-high": row(1.8, "cm", "Upper limit between two readers of one film", readers, [0, 6]),
} as const;
