/** No line, birth or expiry lies beyond; a clock that was never set does. */
export const [FIRST_YEAR, LAST_YEAR] = [1880, 2150] as const;
