import type { Drawing, PlanSheet } from "./plan-sheet.ts";
import { SHEET_LAYOUT } from "./sheet.typ.ts";
import { SHEET_STYLE } from "./sheet-style.ts";

/**
 * The bedside plan as tagged PDF (PDF/UA-1), in grey. The compiler refuses a drawing without its sentence, so a sheet
 * that a screen reader cannot read is never written. The same sheet gives the same bytes.
 */
export async function planPdf(sheet: PlanSheet): Promise<Uint8Array> {
  const { NodeCompiler } = await import("@myriaddreamin/typst-ts-node-compiler");
  const compiler = NodeCompiler.create({ workspace: "/" });
  const styled = (drawing: Drawing) => ({ alt: drawing.alt, svg: inked(drawing.svg), widthMm: widthInMm(drawing.svg) });
  const data = {
    ...sheet,
    strip: sheet.strip ? styled(sheet.strip) : null,
    section: sheet.section ? styled(sheet.section) : null,
    body: sheet.body ? styled(sheet.body) : null,
    paperStrips: sheet.paperStrips.map(styled),
  };
  compiler.mapShadow("/sheet.json", Buffer.from(JSON.stringify(data)));
  compiler.addSource("/sheet.typ", SHEET_LAYOUT);
  return compiler.pdf({ mainFilePath: "/sheet.typ" }, { pdfStandard: "ua-1", creationTimestamp: 0 });
}

/** A drawing as its own file: with its namespace and the style of paper inside it. */
function inked(svg: string): string {
  const named = svg.includes("xmlns=") ? svg : svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ');
  // the page's own sizes in the paper strip stand in attributes; a style sheet would overrule them
  return !svg.includes('class="plate ')
    ? named.replace("<defs>", '<style>text{font-family:"Libertinus Serif"}</style><defs>')
    : named.replace(/(<title)/, `<style>${SHEET_STYLE}</style>$1`);
}

const widthInMm = (svg: string): number => Number(/width="([\d.]+)mm"/.exec(svg)?.[1] ?? 0);
