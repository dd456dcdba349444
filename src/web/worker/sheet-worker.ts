import { columnsOf } from "../../audit/index.ts";
import { intakeHere, type HowToRead } from "../spreadsheet/intake.ts";

/** Answers the page's questions about one file off the page's own thread; stopping it is ending the thread. */
type Asked =
  | { readonly ask: "open"; readonly file: File; readonly sheetName: string | undefined }
  | { readonly ask: "preview"; readonly how: HowToRead }
  | { readonly ask: "faults"; readonly how: HowToRead }
  | { readonly ask: "take"; readonly how: HowToRead; readonly by: string };

const scope = globalThis as unknown as {
  onmessage: (event: { data: Asked }) => void;
  postMessage: (data: unknown, handedOver?: readonly unknown[]) => void;
};
const intake = intakeHere();
const tell = (share: number, rowsRead = 0) => scope.postMessage({ progress: { share, rowsRead } });

scope.onmessage = ({ data }) => {
  const answer =
    data.ask === "open"
      ? intake.open(data.file, data.sheetName, tell)
      : data.ask === "preview"
        ? intake.preview(data.how, tell)
        : data.ask === "faults"
          ? intake.faults(data.how, tell)
          : intake.take(data.how, data.by, tell);
  answer.then(
    // columns are handed over, not copied
    (said) => scope.postMessage({ answer: said }, said.kind === "taken" ? columnsOf(said.lines) : []),
    (fault: unknown) => scope.postMessage({ failed: String(fault) }),
  );
};
