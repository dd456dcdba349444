import { readFileSync } from "node:fs";
import { join, normalize } from "node:path";

const types: Readonly<Record<string, string>> = {
  html: "text/html; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  css: "text/css; charset=utf-8",
  woff2: "font/woff2",
  woff: "font/woff",
  svg: "image/svg+xml",
};

/** A file of the page by its path, the page itself for a path without an ending; undefined when there is none. */
export function pageFile(pageFolder: string, path: string): Response | undefined {
  const decoded = decodedPath(path);
  if (decoded === undefined) return undefined;
  const inside = normalize(decoded).replace(/^(\.\.[/\\])+/, "");
  const file = /\.\w+$/.test(inside) ? inside : "/index.html";
  try {
    const body = readFileSync(join(pageFolder, file));
    const type = types[file.split(".").at(-1) as string] ?? "application/octet-stream";
    const cache = file.startsWith("/assets/") ? "public, max-age=31536000, immutable" : "no-cache";
    return new Response(new Uint8Array(body), { headers: { "content-type": type, "cache-control": cache } });
  } catch {
    return undefined;
  }
}

/** A path with a broken escape names nothing. */
function decodedPath(path: string): string | undefined {
  try {
    return decodeURIComponent(path);
  } catch {
    return undefined;
  }
}
