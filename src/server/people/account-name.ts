/**
 * An account's name as it is kept: compatibility forms and cases made one, so that no two accounts look alike.
 * Source: Unicode NFKC (UAX 15); cases folded through the capitals, so that the two small sigmas and the sharp s meet.
 * Example: "M.Kolm " and "ｍ.kolm" are one account.
 */
export const accountName = (typed: string): string =>
  typed.trim().normalize("NFKC").toUpperCase().toLowerCase().normalize("NFKC").replaceAll("ς", "σ");

const SCRIPTS = [/\p{Script=Latin}/u, /\p{Script=Cyrillic}/u, /\p{Script=Greek}/u, /\p{Script=Armenian}/u];

/** Whether a name mixes alphabets whose letters look alike. Example: "kolm" with a Cyrillic "о" does. */
export const mixesScripts = (name: string): boolean => SCRIPTS.filter((script) => script.test(name)).length > 1;
