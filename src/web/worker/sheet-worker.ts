import { openCsvSheet } from "../../spreadsheet/index.ts";
import { intakeWith } from "../spreadsheet/intake.ts";
import { answerSheet } from "./answer-sheet.ts";

/** Reads a large CSV off the page's own thread, without the reader of workbooks. */
answerSheet(intakeWith(openCsvSheet));
