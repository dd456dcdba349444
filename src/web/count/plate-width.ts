const WIDEST = 880;
const LEAST = 260;

/** The width a plate of counting is drawn at: its lettering keeps its size down to the narrowest screens. */
export const plateWidth = (measured: number): number => Math.min(WIDEST, Math.max(LEAST, measured));
