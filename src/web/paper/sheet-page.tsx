// a sheet is set once and never put in another order
/* oxlint-disable no-array-index-key */
import { useLayoutEffect, useRef, useState, type ReactNode, type RefObject } from "react";
import type { Sheet } from "../../paper/line/index.ts";
import { useWidth } from "../plan/use-width.ts";
import { SheetBlocks } from "./sheet-blocks.tsx";

/** A page, and a card with the air around it, in CSS pixels: 96 to 25.4 mm. */
const WIDTH_PX = { A4: 794, letter: 816, "two A6": 564 } as const;
/** A page is held in the hand; a card is looked at. */
const SMALLEST_PT = { A4: 7, letter: 7, "two A6": 6 } as const;
const CLASS_OF = { A4: "line-paper", letter: "line-paper letter", "two A6": "line-paper cards" } as const;
const STEP_PT = 0.25;

/** A sheet on the screen at the size of paper; a card stands twice, to be cut apart. */
export function SheetPage({ sheet }: { readonly sheet: Sheet }): ReactNode {
  const copies = sheet.size === "two A6" ? [sheet, sheet] : [sheet];
  const [ref, width] = useWidth();
  const [large, setLarge] = useState(false);
  const fits = Math.min(1, width / WIDTH_PX[sheet.size]);
  return (
    <section
      ref={ref}
      className={CLASS_OF[sheet.size]}
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
  const [body, blocks] = useFitted(sheet);
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
        <SheetBlocks blocks={blocks} />
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

const NO_FORMS: NonNullable<Sheet["tighter"]> = [];

/**
 * The largest type that keeps the page one page, and where even the smallest is too large, the next form of the page with
 * less on it: what has much to say grows smaller, then shorter, never longer.
 */
function useFitted(sheet: Sheet): readonly [RefObject<HTMLDivElement | null>, Sheet["blocks"]] {
  const body = useRef<HTMLDivElement>(null);
  const [form, setForm] = useState({ of: sheet, at: 0 });
  const tighter = sheet.tighter ?? NO_FORMS;
  const at = form.of === sheet ? form.at : 0;
  useLayoutEffect(() => {
    const box = body.current;
    if (!box) return;
    const isLong = (): boolean => box.scrollHeight > box.clientHeight;
    const fit = (): void => {
      let pt = sheet.typePt;
      box.style.fontSize = `${pt}pt`;
      while (pt > SMALLEST_PT[sheet.size] && isLong()) {
        pt -= STEP_PT;
        box.style.fontSize = `${pt}pt`;
      }
      if (isLong() && at < tighter.length) setForm({ of: sheet, at: at + 1 });
    };
    fit();
    // the sheet's own typeface comes after the first drawing and is wider
    void document.fonts?.ready.then(fit);
  }, [sheet, tighter, at]);
  return [body, at === 0 ? sheet.blocks : (tighter[at - 1] ?? sheet.blocks)];
}
