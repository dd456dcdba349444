export * from "./figure.ts";
export * from "./ink.ts";
export * from "./markup.ts";
export * from "./lettering.ts";
export * from "./curve.ts";
export * from "./texture.ts";
export * from "./plate.ts";
export * from "./place-labels.ts";
