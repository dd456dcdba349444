/**
 * Who may import whom. A row is a room (a folder under src); its list is every room it may reach besides itself.
 * A room that is not in the table may not exist. "core/*" stands for every core room.
 */
const PLAIN = ["core/quantity", "core/calendar", "core/missing", "core/distribution", "core/reason"];
const EVERYTHING_PURE = [
  "core/*",
  "policy",
  "register",
  "figure",
  "contract",
  "language",
  "audit",
  "measure",
  "spreadsheet",
];

export const IMPORT_TABLE: Readonly<Record<string, readonly string[]>> = {
  "core/quantity": [],
  "core/calendar": [],
  "core/missing": [],
  "core/distribution": [],
  "core/reason": ["core/quantity", "core/missing"],
  "core/age": PLAIN,
  "core/arm": PLAIN,
  "core/catheter": PLAIN,
  "core/infusate": [...PLAIN, "core/age"],
  "core/drug-chart": [...PLAIN, "core/infusate"],
  "core/flow": [...PLAIN, "core/catheter"],
  "core/kidney": [...PLAIN, "core/age"],
  "core/device-choice": [...PLAIN, "core/age", "core/infusate", "core/kidney"],
  "core/expectation": [...PLAIN, "core/age"],
  "core/length": [...PLAIN, "core/arm"],
  "core/anaesthetic": PLAIN,
  "core/plausibility": PLAIN,
  "core/identity": PLAIN,
  "core/line-plan": ["core/*"],
  "core/self-test": ["core/*"],
  "core/tip": [...PLAIN, "core/age", "core/arm"],
  "core/release": [...PLAIN, "core/tip"],
  "core/care": PLAIN,
  "core/complication": [...PLAIN, "core/dwell"],
  "core/dwell": PLAIN,
  "core/incidence": PLAIN,
  "core/survival": PLAIN,
  "core/regression": [...PLAIN, "core/survival"],
  "core/control-chart": PLAIN,
  "core/shrinkage": [...PLAIN, "core/regression"],
  "core/disclosure": PLAIN,
  policy: ["core/*"],
  register: ["core/*", "policy"],
  figure: ["core/*", "policy", "language"],
  contract: ["core/*", "policy", "register", "audit"],
  language: ["core/*", "policy", "register", "audit", "spreadsheet"],
  practice: ["core/*", "policy", "contract", "register"],
  measure: [],
  audit: ["core/*", "policy", "register", "measure"],
  store: ["core/*", "register"],
  // reads the register's lines, so that an import knows what is already there
  spreadsheet: ["core/*", "policy", "audit", "register"],
  paper: ["core/*", "policy", "figure", "contract", "language", "register", "audit"],
  server: [...EVERYTHING_PURE, "practice", "paper", "store"],
  cli: [...EVERYTHING_PURE, "practice", "paper", "store", "server"],
  web: ["core/*", "policy", "figure", "contract", "language", "register", "practice", "paper", "audit", "spreadsheet"],
};

/** Packages a room may import. A room not named here imports none: the ground floor has no dependency. */
export const PACKAGE_TABLE: Readonly<Record<string, readonly string[]>> = {
  contract: ["zod", "papaparse"],
  spreadsheet: ["papaparse", "@noble/hashes"],
  register: ["@noble/hashes"],
  paper: ["node:", "@myriaddreamin/typst-ts-node-compiler"],
  server: ["node:", "hono", "@hono/node-server", "zod", "@node-rs/argon2", "openid-client", "@peculiar/x509"],
  cli: ["node:", "zod"],
  store: ["node:", "better-sqlite3", "pg"],
  web: ["react", "react-dom", "idb", "wouter", "@fontsource", "@fontsource-variable"],
};
