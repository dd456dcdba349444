/** A text as a CSS string: what a person typed may hold quotes and breaks, and none of it may end the string. */
export const cssText = (text: string): string => `"${text.replace(/[^\p{L}\p{N} .,:;()'-]/gu, " ")}"`;
