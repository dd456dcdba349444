export { openMemoryStore } from "./event-store.ts";
