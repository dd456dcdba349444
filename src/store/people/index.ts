export { openPeople, type PeopleStore } from "./people-store.ts";
export type { Person, PersonChange } from "./person-table.ts";
export type { Attempt } from "./attempt-table.ts";
export type { Session } from "./session-table.ts";
export type { OpenedInNeed } from "./glass-table.ts";
export type { TrailEntry, TrailRow } from "./trail-table.ts";
