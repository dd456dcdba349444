const reasons: Readonly<Record<string, string>> = {
  "dialysis-access": "fistula or graft for dialysis",
  "future-dialysis": "dialysis may come",
  thrombosis: "clot in it or above it",
  infection: "infection, burn or wound at the site",
  "past-thrombosis": "an earlier clot",
  "lymph-nodes": "lymphoedema or armpit dissection",
  "sentinel-node": "sentinel-node biopsy",
  pacemaker: "pacemaker leads",
  fracture: "fracture, plate or cast",
  weakness: "weak or paralysed",
  crutches: "bears weight",
  "narrowed-cava": "narrowed upper cava",
};

export const armBarReasons = Object.keys(reasons);
export const armBarSentence = (reason: string): string => reasons[reason] ?? reason;
