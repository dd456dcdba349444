export { demoShelf } from "./demo-shelf.ts";
export { practicePatients, type PracticePatient } from "./practice-patients.ts";
export * from "./practice-referrals.ts";
export * from "./practice-charts.ts";
export { practiceRecord } from "./record/practice-record.ts";
