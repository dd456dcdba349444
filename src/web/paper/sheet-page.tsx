// a sheet is set once and never put in another order
/* oxlint-disable no-array-index-key */
import { useLayoutEffect, useRef, useState, type ReactNode } from "react";
import type { Sheet } from "../../paper/line/index.ts";
import { useWidth } from "../plan/use-width.ts";
import { SheetBlocks } from "./sheet-blocks.tsx";

/** An A4 page, and a card with the air around it, in CSS pixels: 96 to 25.4 mm. */
const WIDTH_PX = { A4: 794, "two A6": 564 } as const;
/** A page is held in the hand; a card is looked at. */
const SMALLEST_PT = { A4: 7, "two A6": 6 } as const;
const STEP_PT = 0.25;

/** A sheet on the screen at the size of paper; a card stands twice, to be cut apart. */
export function SheetPage({ sheet }: { readonly sheet: Sheet }): ReactNode {
  const copies = sheet.size === "A4" ? [sheet] : [sheet, sheet];
  const [ref, width] = useWidth();
  const [large, setLarge] = useState(false);
  const fits = Math.min(1, width / WIDTH_PX[sheet.size]);
  return (
    <section
      ref={ref}
      className={sheet.size === "A4" ? "line-paper" : "line-paper cards"}
      data-paper={sheet.paper}
      // at its own size the sheet is wider than a small screen: keys must reach its far side
      // oxlint-disable-next-line no-noninteractive-tabindex
      tabIndex={0}
      aria-label={sheet.title}
    >
      {fits < 1 ? (
        <button type="button" className="no-print" aria-pressed={large} onClick={() => setLarge(!large)}>
          {large ? "Show the whole sheet" : "Show it at its own size"}
        </button>
      ) : null}
      <div className="whole-sheet" style={{ zoom: large ? 1 : fits }}>
        {copies.map((copy, at) => (
          <Page key={at} sheet={copy} />
        ))}
      </div>
    </section>
  );
}

function Page({ sheet }: { readonly sheet: Sheet }): ReactNode {
  const body = useFitted(sheet);
  return (
    <article className="plate-page" aria-label={sheet.title}>
      {sheet.practice ? (
        <p className="water" aria-hidden="true">
          {sheet.practice}
        </p>
      ) : null}
      <header>
        <p className="person">
          <b>{sheet.name}</b>
          <span>{sheet.identifiers}</span>
          {sheet.practice ? <span>{sheet.practice}</span> : null}
        </p>
        {sheet.arm ? <p className="arm-word">{sheet.arm}</p> : null}
      </header>
      <div className="title">
        <p className="plate-number">Plate {sheet.plate}</p>
        <h1>{sheet.title}</h1>
        <p className="plate-caption">{sheet.caption}</p>
      </div>
      <div className="sheet-body" ref={body}>
        <SheetBlocks blocks={sheet.blocks} />
      </div>
      <footer>
        <span>
          {sheet.name}, {sheet.identifiers}. {sheet.foot}
        </span>
        <span>{sheet.page}</span>
      </footer>
    </article>
  );
}

/** The largest type that keeps the page one page: what has much to say grows smaller, never longer. */
function useFitted(sheet: Sheet) {
  const body = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const box = body.current;
    if (!box) return;
    const fit = (): void => {
      let pt = sheet.typePt;
      box.style.fontSize = `${pt}pt`;
      while (pt > SMALLEST_PT[sheet.size] && box.scrollHeight > box.clientHeight) {
        pt -= STEP_PT;
        box.style.fontSize = `${pt}pt`;
      }
    };
    fit();
    // the sheet's own typeface comes after the first drawing and is wider
    void document.fonts?.ready.then(fit);
  }, [sheet]);
  return body;
}
