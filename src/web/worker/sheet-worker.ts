import { localIntake, type HowToRead } from "../spreadsheet/intake.ts";

/** Reads a large spreadsheet off the page's own thread; stopping it is ending the thread. */
type Asked =
  | { readonly ask: "open"; readonly file: File; readonly sheetName: string | undefined }
  | { readonly ask: "preview"; readonly how: HowToRead }
  | { readonly ask: "take"; readonly how: HowToRead; readonly by: string };

const scope = globalThis as unknown as {
  onmessage: (event: { data: Asked }) => void;
  postMessage: (data: unknown) => void;
};
const intake = localIntake();

scope.onmessage = ({ data }) => {
  const answer =
    data.ask === "open"
      ? intake.open(data.file, data.sheetName)
      : data.ask === "preview"
        ? intake.preview(data.how, (share, rowsRead) => scope.postMessage({ progress: { share, rowsRead } }))
        : intake.take(data.how, data.by);
  void answer.then((said) => scope.postMessage({ answer: said }));
};
