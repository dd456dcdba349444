import type { AuditTable } from "./line-row.ts";

/**
 * Plan of the fold from the register, filled in by `lineRowsFromRegister` in this file.
 *   LineView (placed, said, end)         -> key, patient, placed, end, side, vein, size, lumens, diameter, attempts, ward
 *   standing happenings of the line      -> events (InfectionConcluded, ClotLookedFor, PatencyStepTaken, TipRead, removal)
 *   ReferralView of the placing's referral -> diagnosis, eGFR; PatientView -> age at insertion
 *   answerLine(...).due at `asOf`        -> overdue care; StopOverridden -> overrides; LineUsed -> idle days
 */
export type LineRowsFromRegister = (asOf: AuditTable["asOf"]) => AuditTable;
