import { LINE_SHEET_LAYOUT } from "./line-sheet.typ.ts";
import type { Sheet } from "./line/index.ts";

/**
 * A line's paper as tagged PDF (PDF/UA-1), in grey, one page for each sheet. The compiler refuses a drawing without its
 * sentence. The same sheets give the same bytes.
 */
export async function linePaperPdf(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const { NodeCompiler } = await import("@myriaddreamin/typst-ts-node-compiler");
  const compiler = NodeCompiler.create({ workspace: "/" });
  compiler.mapShadow("/sheet.json", Buffer.from(JSON.stringify(sheets)));
  compiler.addSource("/line-sheet.typ", LINE_SHEET_LAYOUT);
  return compiler.pdf({ mainFilePath: "/line-sheet.typ" }, { pdfStandard: "ua-1", creationTimestamp: 0 });
}
