/** The few kinds of event that are held against the time before and watched: each more would add its own false signals. */
export const COMPARED: ReadonlySet<string> = new Set(["infection-clinical", "thrombosis", "occlusion"]);
