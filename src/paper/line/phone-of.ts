import { phoneWords } from "../../language/index.ts";
import { isPractice, type PaperInput } from "./paper-input.ts";

/** Where to ring about a line: its owner, else the hospital's number of the policy; an invented one only in practice. */
export function phoneOf({ line, patient, policy }: Pick<PaperInput, "line" | "patient" | "policy">): {
  readonly number: string | undefined;
  readonly who: string;
} {
  const { owner } = line;
  if (owner?.phone) return { number: owner.phone, who: owner.owner };
  const house = policy.table["paper.phone"].value.trim();
  if (house !== "") return { number: house, who: phoneWords.house };
  return { number: isPractice(patient) ? phoneWords.invented : undefined, who: owner?.owner ?? "" };
}
