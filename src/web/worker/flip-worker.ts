import { whatWouldChange, type PlanInput, type PlanPolicy } from "../../core/line-plan/index.ts";

/** Works out what would change the plan, off the page's own thread, and sends each answer as it is found. */
interface Asked {
  readonly turn: number;
  readonly input: PlanInput;
  readonly policy: PlanPolicy;
}

const scope = globalThis as unknown as {
  onmessage: (event: { data: Asked }) => void;
  postMessage: (data: unknown) => void;
};

scope.onmessage = ({ data }) => {
  for (const flip of whatWouldChange(data.input, data.policy)) {
    if (flip.kind === "number" || (flip.kind === "answer" && flip.becomes))
      scope.postMessage({ turn: data.turn, flip });
  }
  scope.postMessage({ turn: data.turn, done: true });
};
