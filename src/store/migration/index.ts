export { migrate, type Migration } from "./migrate.ts";
