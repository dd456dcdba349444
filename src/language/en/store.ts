import type { BrokenLink, Verification } from "../../register/index.ts";

const short = (hash: string): string => (hash.length === 64 ? `${hash.slice(0, 12)}...` : hash);

const broken: Readonly<Record<BrokenLink["code"], string>> = {
  unreadable: "Its text cannot be read.",
  "position-missing": "An event before it was taken out or put in.",
  "version-missing": "An event of the same subject was taken out or put in.",
  "content-changed": "What it says is not what its writer sealed.",
  "chain-broken": "Its link does not follow from the event before.",
  "cut-off": "The record ends before it.",
  "checkpoint-chain": "The head kept for it is not the head of these events.",
  "checkpoint-tree": "The tree kept for it is not the tree of these events.",
};

/** The first broken link: where, which event, what was found, what was expected, what to do. */
export function brokenLinkSentence({ code, position, id, found, expected }: BrokenLink): string {
  const which = id === "" ? `Position ${position}.` : `Position ${position}, ${id}.`;
  const values = expected === "" ? "" : ` Found ${short(found)}; expected ${short(expected)}.`;
  return `${which} ${broken[code]}${values} Stop writing. Keep this copy. Restore a backup elsewhere and compare.`;
}

export const wholeSentences = (whole: Verification & { readonly kind: "whole" }): readonly string[] => [
  `Every link holds: ${whole.events} events of ${whole.subjects} subjects, ${whole.checkpoints} checkpoints.`,
  `Head ${whole.head.position} ${whole.head.chainHash}`,
  `Tree ${whole.treeRoot}`,
  "Keep this head elsewhere. Only a kept head shows a cut end.",
];

export const backupSentence = (file: string, events: number): string =>
  `Written to ${file}, opened again and verified: ${events} events.`;

export const restoredSentence = (place: string, events: number): string =>
  `Restored to ${place} and verified: ${events} events.`;

/** Why a command on the record does nothing, and what to do. */
export const storeRefusal = {
  "no-store": (place: string) => `There is no record at ${place}. Name it with --store.`,
  "is-a-folder": (place: string) => `${place} is a folder. Name the file in it, such as ${place}/veinwright.sqlite.`,
  "not-a-record": (place: string) => `${place} holds no record: it is empty or another kind of file. Name another.`,
  "no-backup": (place: string) => `There is no backup at ${place}. Check the name of the file.`,
  "already-there": (place: string) => `Something is at ${place} already. Nothing is overwritten. Name an empty place.`,
  "not-a-backup": (place: string) => `${place} is not a whole backup of this program. Take another one.`,
  "cannot-open": (place: string) => `The record at ${place} cannot be opened.`,
} as const;

/** The file of the record is held by another process, which may be told by what keeps one open so long. */
export const storeInUse = (place: string): string =>
  `The record at ${place} is in use: another program holds it. Perhaps a restore, a copy or a tool for databases. A running server alone does not lock it. Let the other end, then try again.`;

/** Said when the program itself fails; never with a value of a file. */
export const stoppedSentence = (kind: string): string =>
  `A fault of the program itself (${kind}): run again with VEINWRIGHT_STACK=1 and report its places.`;
