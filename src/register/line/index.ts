export * from "./line-words.ts";
export * from "./line-events.ts";
export * from "./line-view.ts";
export * from "./decide-line.ts";
export * from "./line-answer.ts";
export { concludes } from "./trouble-of-line.ts";
export * from "./lytic-looks.ts";
export { releaseFacts } from "./release-of-line.ts";
export { filmOfLine, filmReadingOf, tipDepthOf } from "./film-of-line.ts";
