/** A fault of a file: where, what was found, the rule, what to do. */
export function sayFault(fault: {
  readonly path: string;
  readonly code: string;
  readonly found: string;
  readonly rule: string;
  readonly meant?: number;
}): string {
  const where = fault.path === "" ? "The file" : fault.path;
  const what: Readonly<Record<string, string>> = {
    "not-json": "is not JSON. Check the file for a missing comma or bracket.",
    "too-large": `is too large (${fault.found}); the rule is ${fault.rule}.`,
    "wrong-type": `is ${fault.found}; the rule is ${fault.rule}. Type it that way.`,
    "unknown-field": "is not a field of this file. Check the spelling and the unit in the name.",
    "out-of-range": `is ${fault.found}; the rule is ${fault.rule}. ${fault.meant === undefined ? "Check the unit." : `Is ${fault.meant} meant?`}`,
    "not-in-list": `is ${fault.found}; the rule is ${fault.rule}.`,
    "thousands-separator": `is ${fault.found}; write ${fault.rule}.`,
    "both-units": `is given twice, as ${fault.found}. Keep one.`,
    "gauge-for-french": `is ${fault.found}: that looks like gauge. A line's size is in French, ${fault.rule}.`,
    twice: `stands twice (${fault.found}); the rule is ${fault.rule}.`,
    "no-such-date": `is ${fault.found}; the rule is ${fault.rule}.`,
    "hidden-sign": `holds a sign that cannot be seen. Type it again by hand.`,
    "out-of-order": `is ${fault.found}; the rule is ${fault.rule}.`,
    contradicts: `is ${fault.found}, which contradicts the rest; the rule is ${fault.rule}.`,
    "wrong-length": `has ${fault.found}; the rule is ${fault.rule}. Count them and type the line again.`,
    "check-letters": `does not fit ${fault.rule}. One letter is wrong, or two are swapped. Type it again.`,
    "header-alone": `has a header and no rows below it; the rule is ${fault.rule}. Add them below the header.`,
    "missing-field": "is missing. Add it, or say which kind of missing it is.",
  };
  return `${where} ${what[fault.code] ?? fault.rule}`;
}
