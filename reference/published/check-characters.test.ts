import { checkCharacters } from "../../src/contract/index.ts";
import { checkAgainst } from "../check.ts";

const CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const value = (check: string) => CHARACTERS.indexOf(check.charAt(0)) * 36 + CHARACTERS.indexOf(check.charAt(1));

checkAgainst(
  {
    quantity: "check characters of the card's text block",
    unit: "value of the two characters",
    source: "ISO/IEC 7064:2003, section 8.2, example of MOD 1271-36",
    kind: "published",
    tolerance: 0,
    comparisons: 1,
  },
  (compare) => compare("ISO 79", value(checkCharacters("ISO79")), value("3W")),
);
