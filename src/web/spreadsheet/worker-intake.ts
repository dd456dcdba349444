import type { FaultList, Intake, Progress, SeenOpened, SeenPreview, Taken } from "./intake.ts";

const STOPPED = { kind: "refused", refusal: { code: "cancelled", found: "" } } as const;
interface Said<Answer> {
  readonly progress?: { readonly share: number; readonly rowsRead: number };
  readonly answer?: Answer;
  readonly failed?: string;
}

/** The intake on a thread of its own, one question at a time; cancelling ends the thread and opens the file again. */
export async function workerIntake(): Promise<Intake> {
  const { default: SheetWorker } = await import("../worker/sheet-worker.ts?worker&inline");
  let worker = new SheetWorker();
  let opened: { readonly file: File; readonly sheetName: string | undefined } | undefined;
  let isOpen = false;
  let stop: (() => void) | undefined;
  let ready: Promise<unknown> = Promise.resolve();
  const ask = <Answer>(question: object, stopped: Answer, progress?: Progress): Promise<Answer> =>
    new Promise((resolve, reject) => {
      stop = () => resolve(stopped);
      worker.onerror = (event) => reject(new Error(event.message));
      worker.onmessage = ({ data }: MessageEvent<Said<Answer>>) => {
        if (data.progress) progress?.(data.progress.share, data.progress.rowsRead);
        if (data.failed !== undefined) reject(new Error(data.failed));
        if (data.answer !== undefined) resolve(data.answer);
      };
      worker.postMessage(question);
    });
  return {
    open: async (file, sheetName, progress) => {
      opened = { file, sheetName };
      isOpen = false;
      const answer = await ask<SeenOpened>({ ask: "open", file, sheetName }, STOPPED, progress);
      isOpen = answer.kind === "sheet";
      return answer;
    },
    preview: async (how, progress) => {
      await ready;
      return ask<SeenPreview>({ ask: "preview", how }, STOPPED, progress);
    },
    faults: async (how, progress) => {
      await ready;
      return ask<FaultList>({ ask: "faults", how }, STOPPED, progress);
    },
    take: (how, by, progress) =>
      ask<Taken | typeof STOPPED | { readonly kind: "questions" }>({ ask: "take", how, by }, STOPPED, progress),
    cancel: () => {
      worker.terminate();
      stop?.();
      worker = new SheetWorker();
      // the next question finds the file open again; one that was stopped while it was opened stays shut
      if (opened && isOpen) ready = ask<SeenOpened>({ ask: "open", ...opened }, STOPPED);
    },
    close: () => worker.terminate(),
  };
}
