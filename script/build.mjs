// @ts-check
// Builds everything: the page, the one-file page for a stick, the server and the command line.
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { build as bundle } from "esbuild";
import { build as buildPage } from "vite";

const FIRST_LOAD_LIMIT_KB = 200;
rmSync("dist", { recursive: true, force: true });

await buildPage({ configFile: "vite.config.ts", logLevel: "warn" });
await buildPage({ configFile: "vite.config.ts", mode: "stick", logLevel: "warn" });

const node = {
  bundle: true,
  platform: /** @type {const} */ ("node"),
  format: /** @type {const} */ ("esm"),
  target: "node20",
  logLevel: /** @type {const} */ ("warning"),
};
await bundle({
  ...node,
  entryPoints: ["src/cli/main.ts"],
  outfile: "dist/cli/main.js",
  // compiled or loaded only where a store needs them
  external: ["@myriaddreamin/typst-ts-node-compiler", "better-sqlite3", "pg"],
});
await bundle({
  ...node,
  entryPoints: ["src/server/main.ts"],
  outfile: "dist/server/main.js",
  // compiled for one Node, or loaded by name at run time
  external: ["better-sqlite3", "pg", "@node-rs/argon2"],
});

writeOfflineWorker();
writeStick();
reportSize();

/** The service worker keeps exactly the files of this build; its own bytes change when any of them does. */
function writeOfflineWorker() {
  const files = readdirSync("dist/web", { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).replaceAll("\\", "/").replace("dist/web", ""))
    .sort();
  const hash = createHash("sha256");
  for (const file of files) hash.update(readFileSync(`dist/web${file}`));
  const worker = readFileSync("src/web/offline/service-worker.js", "utf8")
    .replace("__VERSION__", hash.digest("hex").slice(0, 16))
    .replace("__FILES__", JSON.stringify(["/", ...files]));
  writeFileSync("dist/web/service-worker.js", worker);
}

/** One file, classic script, nothing fetched: opens from a memory stick where module scripts are refused. */
function writeStick() {
  const folder = "dist/stick-parts";
  const names = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const read = (/** @type {RegExp} */ ending) => {
    const entry = names.find(({ name }) => ending.test(name));
    if (!entry) throw new Error(`The stick build made no file like ${ending}`);
    return readFileSync(join(entry.parentPath, entry.name), "utf8");
  };
  const script = read(/\.js$/).replaceAll("</script", "<\\/script");
  const page = readFileSync("src/web/index.html", "utf8")
    .replace(/<link rel="manifest"[^>]*>/, "")
    .replace("</head>", () => `<style>${read(/\.css$/)}</style></head>`)
    .replace(/<script type="module"[^>]*><\/script>/, "")
    .replace("</body>", () => `<script>${script}</script></body>`);
  mkdirSync("dist/stick", { recursive: true });
  writeFileSync("dist/stick/veinwright.html", page);
  cpSync("docs/how-to/use-from-a-stick.md", "dist/stick/READ-ME.txt");
  rmSync(folder, { recursive: true });
}

function reportSize() {
  const size = (/** @type {string} */ file) => gzipSync(readFileSync(file)).length / 1000;
  const assets = readdirSync("dist/web/assets").map((name) => `dist/web/assets/${name}`);
  const page = readFileSync("dist/web/index.html", "utf8");
  const first = assets.filter((file) => file.endsWith(".js") && page.includes(file.replace("dist/web", "")));
  const total = first.reduce((sum, file) => sum + size(file), 0);
  const rest = assets
    .filter((file) => !first.includes(file))
    .map((file) => `${file.replace("dist/web/assets/", "")} ${size(file).toFixed(1)}`);
  console.log(
    `First load: ${total.toFixed(1)} kB of script, gzipped (limit ${FIRST_LOAD_LIMIT_KB}). Beside it, kB: ${rest.join(", ")}`,
  );
  if (total > FIRST_LOAD_LIMIT_KB) throw new Error("The first load is over its limit.");
}
