import type { HowToRead, Intake } from "../spreadsheet/intake.ts";

type Asked =
  | { readonly ask: "open"; readonly file: File; readonly sheetName: string | undefined }
  | { readonly ask: "preview"; readonly how: HowToRead }
  | { readonly ask: "take"; readonly how: HowToRead; readonly by: string };

/** Answers the page's questions about one file; stopping it is ending the thread. */
export function answerSheet(intake: Intake): void {
  const scope = globalThis as unknown as {
    onmessage: (event: { data: Asked }) => void;
    postMessage: (data: unknown) => void;
  };
  scope.onmessage = ({ data }) => {
    const answer =
      data.ask === "open"
        ? intake.open(data.file, data.sheetName)
        : data.ask === "preview"
          ? intake.preview(data.how, (share, rowsRead) => scope.postMessage({ progress: { share, rowsRead } }))
          : intake.take(data.how, data.by);
    void answer.then((said) => scope.postMessage({ answer: said }));
  };
}
