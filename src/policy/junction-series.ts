import type { ChildUnits, JunctionSeries } from "../core/tip/index.ts";

/** Published distances from the carina to the cavo-atrial junction in adults; which of them count is a policy row. */
export const junctionSeries: readonly JunctionSeries[] = [
  {
    name: "Mahlon 2007",
    source: "Mahlon and Yoon 2007, J Vasc Interv Radiol 18:1106",
    people: "112 adults, CT",
    howKnown: "published",
    centre: { cm: 4.03 },
    sdCm: 1.36,
  },
  {
    name: "Japan, 48 adults",
    source: "Interventional Radiology (Japan) 26:2, 48 adults",
    people: "48 adults, CT",
    howKnown: "published",
    centre: { cm: 3.53 },
    sdCm: 0.74,
  },
  {
    name: "Kandasamy 2024",
    source: "Kandasamy 2024, 100 CTs read as films",
    people: "100 adults, CT as film",
    howKnown: "published",
    centre: { cm: 4.62 },
  },
  {
    name: "Song 2015",
    source: "Song 2015, Br J Anaesth 115:252",
    people: "524 adults, CT angiography",
    howKnown: "published",
    centre: { cm: 5.43 },
    sdCm: 0.97,
  },
  {
    name: "Baskin 2008",
    source: "Baskin 2008, J Vasc Interv Radiol 19:359",
    people: "100 aged 12 to 28",
    howKnown: "published",
    centre: { units: 2 },
  },
];

/** Children by age, in vertebral units. Source: Hirschl 2020, Pediatr Surg Int, 584 CTs. */
export const childUnits: readonly ChildUnits[] = [
  { fromYears: 0, units: 1.25 },
  { fromYears: 1, units: 1.27 },
  { fromYears: 4, units: 1.34 },
  { fromYears: 9, units: 1.53 },
  { fromYears: 15, units: 1.64 },
];
