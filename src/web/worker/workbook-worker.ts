import { openSheet } from "../../spreadsheet/index.ts";
import { intakeWith } from "../spreadsheet/intake.ts";
import { answerSheet } from "./answer-sheet.ts";

/** Reads a large workbook off the page's own thread. */
answerSheet(intakeWith(openSheet));
