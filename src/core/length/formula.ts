import type { Side } from "../arm/index.ts";
import { centimetre, type Centimetre } from "../quantity/index.ts";

/**
 * Adult tape formula, elbow crease to carina.
 *   25.0 + 0.5 x clavicle + 0.6 x sternum (cm)
 * Clavicle from acromion to sternal head, sternum from sternal head to the tip of the xiphoid. The crease lies below an
 * upper-arm entry, so the distance from crease to entry is taken off, and the carina lies above the junction of cava and
 * atrium, so that distance is added; both happen in `expectedLength`, where they can be seen.
 * Holds: adults; 55 patients, R2 0.3; the abstract prints the constant as 25.0 and once as 25.3.
 * Source: Korean J Anesthesiol 2018, doi 10.4097/kja.d.18.27185 (abstract).
 * Example: clavicle 15, sternum 20: 44.5 cm.
 */
export const adultCreaseToCarina = (clavicleCm: Centimetre, sternumCm: Centimetre): Centimetre =>
  centimetre(25 + 0.5 * clavicleCm + 0.6 * sternumCm);

/**
 * Children's formula by height, anterior axillary point to carina.
 *   right 0.105 x height + 1.53, left 0.125 x height + 1.21 (cm)
 * Holds: children; 54 lines on the right (R2 0.71), 49 on the left (R2 0.65). Source: Ota H and others 2022.
 * Example: 100 cm tall: 12.03 on the right, 13.71 on the left.
 */
export const childAxillaryToCarina = (side: Side, heightCm: Centimetre): Centimetre =>
  centimetre(side === "right" ? 0.105 * heightCm + 1.53 : 0.125 * heightCm + 1.21);

/**
 * Children's simple formula, anterior axillary point to a tip anywhere from the subclavian vein to the upper cava.
 *   0.1 x height + 1 (cm)
 * Holds: children, either side; 46 of 47 later lines, but 26 % of the tips lay in the subclavian vein, so it names no one
 * point and decides no length. Source: Ota H and others 2022 (the rule before the two formulas by side).
 * Example: 100 cm tall: 11.0 cm.
 */
export const childAxillaryToCentral = (heightCm: Centimetre): Centimetre => centimetre(0.1 * heightCm + 1);

/**
 * Newborns' formula by length, armpit to the upper cava.
 *   1 + 0.18 x length (cm)
 * Holds: newborns, entry in the armpit; 53 % of lines placed by such formulas were still moved afterwards.
 * Source: Pediatr Neonatol 2019, formulas by site (abstract).
 * Example: 47 cm long: 9.46 cm.
 */
export const newbornAxillaryToCava = (lengthCm: Centimetre): Centimetre => centimetre(1 + 0.18 * lengthCm);
