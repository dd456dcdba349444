import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize, relative } from "node:path";
import { describe, expect, test } from "vitest";
import { IMPORT_TABLE, PACKAGE_TABLE } from "./import-table.ts";

interface Import {
  readonly from: string;
  readonly target: string;
}

function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}

function importsOf(file: string): Import[] {
  const text = readFileSync(file, "utf8");
  const pattern =
    /(?:^|\n)\s*(?:import|export)\b[^;'"]*?\bfrom\s*["']([^"']+)["']|(?:^|\n)\s*import\s*["']([^"']+)["']|import\(\s*["']([^"']+)["']/g;
  return [...text.matchAll(pattern)].map((match) => ({
    from: file,
    target: (match[1] ?? match[2] ?? match[3]) as string,
  }));
}

/** The room a file stands in: the first folder under src, or the first two inside core. */
function roomOf(path: string): string {
  const parts = relative("src", path).split("/");
  return parts[0] === "core" ? `core/${parts[1]}` : (parts[0] as string);
}

const files = sourceFiles("src");
const production = files.filter((file) => !/\.test\.tsx?$/.test(file));
const allows = (room: string, other: string) =>
  (IMPORT_TABLE[room] ?? []).some((entry) => entry === other || (entry === "core/*" && other.startsWith("core/")));

describe("the house", () => {
  test("the check has something to check", () => {
    expect(production.length).toBeGreaterThan(20);
    expect(production.flatMap(importsOf).length).toBeGreaterThan(40);
  });

  test("every room is in the table", () => {
    expect(files.filter((file) => !(roomOf(file) in IMPORT_TABLE))).toEqual([]);
  });

  test("imports point only where the table allows", () => {
    const wrong = production.flatMap(importsOf).flatMap(({ from, target }) => {
      const room = roomOf(from);
      if (!target.startsWith(".")) {
        const allowed = (PACKAGE_TABLE[room] ?? []).some(
          (name) => target === name || target.startsWith(name.endsWith(":") ? name : `${name}/`),
        );
        return allowed ? [] : [`${from}: package ${target}`];
      }
      const path = normalize(join(dirname(from), target.replace(/\?.*$/, "")));
      if (!path.startsWith("src/")) return [`${from}: leaves src (${target})`];
      const other = roomOf(path);
      return room === other || allows(room, other) ? [] : [`${from}: ${room} may not import ${other}`];
    });
    expect(wrong).toEqual([]);
  });

  test("a room is entered through its index only", () => {
    const wrong = files.flatMap(importsOf).flatMap(({ from, target }) => {
      if (!target.startsWith(".")) return [];
      const path = normalize(join(dirname(from), target.replace(/\?.*$/, "")));
      if (!path.startsWith("src/") || roomOf(from) === roomOf(path)) return [];
      return /\/index\.tsx?$/.test(path) ? [] : [`${from}: reaches into ${path}`];
    });
    expect(wrong).toEqual([]);
  });

  test("no drawer without a concept", () => {
    expect(files.filter((file) => /(^|\/)(utils?|helpers?|common|misc|lib|shared)(\/|\.[a-z]+$)/.test(file))).toEqual(
      [],
    );
  });

  test("no file is over 400 lines, and one over 300 gives its reason in the header", () => {
    const long = production.flatMap((file) => {
      const text = readFileSync(file, "utf8");
      const lines = text.split("\n").length;
      if (lines > 400) return [`${file}: ${lines} lines`];
      return lines > 300 && !/Longer than 300 lines because/.test(text.slice(0, 1500))
        ? [`${file}: ${lines} lines, no reason`]
        : [];
    });
    expect(long).toEqual([]);
  });
});
