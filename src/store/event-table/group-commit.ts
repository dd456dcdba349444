interface Waiting<Job, Result> {
  readonly job: Job;
  readonly resolve: (result: Result) => void;
  readonly reject: (error: unknown) => void;
}

/**
 * Gathers what is asked in one turn of the event loop, and while a commit is under way, into one commit: the disk is
 * waited for once. A promise resolves only after the commit that holds its job.
 * A group that throws was rolled back whole; each of its jobs is then tried alone, so that only the one at fault fails.
 * (A savepoint each would not do: on a full disk SQLite rolls back the whole transaction by itself.)
 */
export function groupCommit<Job, Result>(
  most: number,
  commit: (jobs: readonly Job[]) => Promise<readonly Result[]>,
): (job: Job) => Promise<Result> {
  const waiting: Waiting<Job, Result>[] = [];
  let running = false;
  const attempt = async (group: readonly Waiting<Job, Result>[]): Promise<void> => {
    try {
      const results = await commit(group.map(({ job }) => job));
      for (const [index, { resolve }] of group.entries()) resolve(results[index] as Result);
    } catch (error) {
      if (group.length === 1) group[0]?.reject(error);
      else for (const one of group) await attempt([one]);
    }
  };
  const drain = async (): Promise<void> => {
    while (waiting.length > 0) {
      await new Promise((turned) => setImmediate(turned));
      await attempt(waiting.splice(0, most));
    }
    running = false;
  };
  return (job) =>
    new Promise((resolve, reject) => {
      waiting.push({ job, resolve, reject });
      if (running) return;
      running = true;
      void drain();
    });
}
