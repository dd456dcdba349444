import { looksLikeWorkbook } from "../../spreadsheet/index.ts";
import type { Intake, SeenOpened, SeenPreview, Taken } from "./intake.ts";

type Progress = (share: number, rowsRead: number) => void;
const STOPPED = { kind: "refused", refusal: { code: "cancelled", found: "" } } as const;

const SIGN_BYTES = 4;

/** The thread that the file needs: a CSV never loads the reader of workbooks. */
async function threadFor(file: File): Promise<new () => Worker> {
  const sign = new Uint8Array(await file.slice(0, SIGN_BYTES).arrayBuffer());
  return looksLikeWorkbook(sign)
    ? (await import("../worker/workbook-worker.ts?worker&inline")).default
    : (await import("../worker/sheet-worker.ts?worker&inline")).default;
}

/** The intake on a thread of its own, one question at a time; cancelling ends the thread and opens the file again. */
export async function workerIntake(file: File): Promise<Intake> {
  const SheetWorker = await threadFor(file);
  let worker = new SheetWorker();
  let opened: { readonly file: File; readonly sheetName: string | undefined } | undefined;
  let stop: (() => void) | undefined;
  let ready: Promise<unknown> = Promise.resolve();
  const ask = <Answer>(question: object, stopped: Answer, progress?: Progress): Promise<Answer> =>
    new Promise((resolve, reject) => {
      stop = () => resolve(stopped);
      worker.onerror = (event) => reject(new Error(event.message));
      worker.onmessage = ({
        data,
      }: MessageEvent<{ progress?: { share: number; rowsRead: number }; answer?: Answer }>) => {
        if (data.progress) progress?.(data.progress.share, data.progress.rowsRead);
        if (data.answer !== undefined) resolve(data.answer);
      };
      worker.postMessage(question);
    });
  return {
    open: (file, sheetName) => {
      opened = { file, sheetName };
      return ask<SeenOpened>({ ask: "open", file, sheetName }, STOPPED);
    },
    preview: async (how, progress) => {
      await ready;
      return ask<SeenPreview>({ ask: "preview", how }, STOPPED, progress);
    },
    take: (how, by) => ask<Taken | typeof STOPPED | { readonly kind: "questions" }>({ ask: "take", how, by }, STOPPED),
    cancel: () => {
      worker.terminate();
      stop?.();
      worker = new SheetWorker();
      // the next question finds the file open again
      if (opened) ready = ask<SeenOpened>({ ask: "open", ...opened }, STOPPED);
    },
  };
}
