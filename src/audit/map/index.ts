export { armMap, MAP_AXES, type ArmMap, type MapAxis, type MapCell } from "./arm-map.ts";
