import { contentLeaf, merkleTree, type Checkpoint } from "../../register/index.ts";
import type { SqlConnection } from "../sql/index.ts";
import { readHead } from "./take-offers.ts";

interface CheckpointRow {
  readonly day: string;
  readonly position: number;
  readonly chain_hash: string;
  readonly tree_root: string;
  readonly peaks: string;
}

const BATCH = 5000;

export async function readCheckpoints(connection: SqlConnection): Promise<readonly Checkpoint[]> {
  const rows = await connection.all<CheckpointRow>("SELECT * FROM checkpoint ORDER BY day");
  return rows.map(({ day, position, chain_hash, tree_root }) => ({
    day,
    position,
    chainHash: chain_hash,
    treeRoot: tree_root,
  }));
}

/** Grows the tree from the last checkpoint's frontier to the head: a day costs a day's events, not the whole record. */
export async function writeCheckpoint(connection: SqlConnection, day: string): Promise<Checkpoint> {
  const head = await readHead(connection);
  const [last] = await connection.all<CheckpointRow>(
    "SELECT * FROM checkpoint WHERE position <= ? ORDER BY position DESC LIMIT 1",
    [head.position],
  );
  const tree = merkleTree(last && { size: last.position, peaks: last.peaks === "" ? [] : last.peaks.split(",") });
  for (let at = last?.position ?? 0; at < head.position;) {
    const rows = await connection.all<{ position: number; content_hash: string }>(
      "SELECT position, content_hash FROM event WHERE position > ? AND position <= ? ORDER BY position LIMIT ?",
      [at, head.position, BATCH],
    );
    for (const { content_hash } of rows) tree.add(contentLeaf(content_hash));
    const end = rows.at(-1)?.position;
    if (end === undefined) break;
    at = end;
  }
  const { peaks } = tree.frontier();
  const checkpoint = { day, ...head, treeRoot: tree.root() };
  // another server may have written the same day from a later head: that one stays
  await connection.run(
    "INSERT INTO checkpoint (day, position, chain_hash, tree_root, peaks) VALUES (?, ?, ?, ?, ?) " +
      "ON CONFLICT (day) DO UPDATE SET position = excluded.position, chain_hash = excluded.chain_hash, " +
      "tree_root = excluded.tree_root, peaks = excluded.peaks WHERE excluded.position >= checkpoint.position",
    [day, head.position, head.chainHash, checkpoint.treeRoot, peaks.join(",")],
  );
  return (await readCheckpoints(connection)).find((one) => one.day === day) ?? checkpoint;
}
