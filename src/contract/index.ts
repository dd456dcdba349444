export * from "./fault.ts";
export * from "./number-text.ts";
export { readCase, readCaseText, type CaseReading } from "./read-case.ts";
export { planCaseJsonSchema, type PlanCase } from "./plan-schema.ts";
export { caseFromDraft, draftFromCase, type CaseOfDraft, type Draft } from "./draft.ts";
export { readReferral, readReferralText, type ReferralReading } from "./read-referral.ts";
export { referralJsonSchema, type ReferralFile } from "./referral-schema.ts";
export { readInfusateCsv } from "./infusate-csv.ts";
export { referralFromDraft } from "./referral-draft.ts";
