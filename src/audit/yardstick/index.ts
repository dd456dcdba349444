export { besides, type Beside, type Difference, type Yardstick } from "./yardstick.ts";
export { readYardsticks, type YardstickFault, type YardstickReading } from "./read-yardsticks.ts";
