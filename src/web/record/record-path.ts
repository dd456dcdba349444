/** Addresses that belong to the record; the rest is the plan's and the policy's. */
export const isRecordPath = (path: string): boolean =>
  /^\/(record|look-after|lots|duplicates|line|write|new|place|correct|correct-count|settle|paper|case|secret|sign-in|count)([/?]|$)/.test(
    path,
  );
