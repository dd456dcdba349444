export { backupStore, mustBeThere } from "./backup-store.ts";
export { restoreStore } from "./restore-store.ts";
export { StoreRefused } from "./store-refused.ts";
