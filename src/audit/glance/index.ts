export { glance, type Glance, type GlanceRate } from "./glance.ts";
