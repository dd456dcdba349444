import { useCallback, useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { readNumber } from "../../contract/index.ts";
import { veinAnswer } from "../../core/flow/index.ts";
import { frenchToMillimetre, french, millimetre } from "../../core/quantity/index.ts";
import { flowCurve, flowSection, type Figure } from "../../figure/index.ts";
import { flowRefusal, lumens as lumensWords, safetyStatement, veinFlowLines } from "../../language/index.ts";
import { flowAssumptionsFrom, type LocalPolicy } from "../../policy/index.ts";
import { LumenSection, MixingSection } from "./lumen-and-mixing.tsx";
import { FigureTable } from "../plan/figure-table.tsx";

/** What a plan hands over: its vein, its doubt, its catheter. */
export interface FlowStart {
  readonly diameterMm: number;
  readonly sdMm: number;
  readonly outsideDiameterMm: number;
  readonly lumens: number;
}

const ALONE: FlowStart = { diameterMm: 4, sdMm: 0.3, outsideDiameterMm: 4 / 3, lumens: 1 };
const SIZES = [2, 3, 4, 5, 6].map((fr) => ({ name: `${fr} Fr`, outsideDiameterMm: frenchToMillimetre(french(fr)) }));
const NEAR = 0.02;

/** See the flow: the vein with the catheter in it, moved by key or finger, and what each size leaves. */
export function FlowPage({
  start,
  policy,
}: {
  readonly start: FlowStart | undefined;
  readonly policy: LocalPolicy;
}): ReactNode {
  const from = start ?? ALONE;
  const [typed, setTyped] = useState(from.diameterMm.toFixed(1));
  const [outside, setOutside] = useState(from.outsideDiameterMm);
  const [lumens, setLumens] = useState(from.lumens);
  const [offset, setOffset] = useState(0);
  const page = useRef<HTMLElement>(null);
  const reading = readNumber(typed);
  const diameter = reading.kind === "number" ? reading.value : Number.NaN;
  const assumed = useMemo(() => flowAssumptionsFrom(policy.table), [policy]);
  const usable = diameter >= 0.5 && diameter <= 20;
  const answer = useMemo(
    () =>
      usable
        ? veinAnswer(
            {
              outsideDiameterMm: millimetre(outside),
              diameterMm: millimetre(diameter),
              sdMm: millimetre(from.sdMm),
              offset,
            },
            assumed,
          )
        : undefined,
    [usable, outside, diameter, from.sdMm, offset, assumed],
  );
  const refused = answer && "kind" in answer ? flowRefusal[answer.reason] : undefined;
  const sizes = SIZES.some((size) => Math.abs(size.outsideDiameterMm - outside) < NEAR)
    ? SIZES
    : [...SIZES, { name: `${outside.toFixed(2)} mm`, outsideDiameterMm: millimetre(outside) }];
  const { wallMm, septumMm, slowBelow } = assumed;
  const input = {
    id: "flow",
    diameterMm: diameter,
    outsideDiameterMm: outside,
    lumens,
    offset,
    wallMm,
    septumMm,
    slowBelow,
  };
  const shown = answer && !("kind" in answer) ? answer : undefined;
  return (
    <main className="flow" ref={page}>
      <h1>See the flow</h1>
      <p className="lead">Why the smallest catheter, the fewest lumens and the widest vein. It teaches and compares.</p>
      <form className="flow-entry" onSubmit={(event) => event.preventDefault()}>
        <label>
          Vein, inside{" "}
          <span className="typed">
            <input
              inputMode="decimal"
              value={typed}
              onChange={(event) => setTyped(event.target.value)}
              aria-label="Vein, inside diameter in millimetres"
            />
            <span className="unit">mm</span>
          </span>
        </label>
        <Pick
          label="Catheter"
          options={sizes.map((size) => [String(size.outsideDiameterMm), size.name])}
          now={String(
            sizes.find((size) => Math.abs(size.outsideDiameterMm - outside) < NEAR)?.outsideDiameterMm ?? outside,
          )}
          pick={(value) => setOutside(Number(value))}
        />
        <Pick
          label="Lumens"
          options={[1, 2, 3].map((count) => [String(count), lumensWords(count)])}
          now={String(lumens)}
          pick={(value) => setLumens(Number(value))}
        />
        <label className="place">
          Place of the catheter: middle
          <input
            type="range"
            min={0}
            max={100}
            step={1}
            value={Math.round(offset * 100)}
            aria-label="Place of the catheter, from the middle to the wall"
            aria-valuetext={
              offset === 0
                ? "in the middle"
                : offset === 1
                  ? "leaning on the wall"
                  : `${Math.round(offset * 100)} per cent of the way to the wall`
            }
            onChange={(event) => setOffset(Number(event.target.value) / 100)}
          />
          wall
        </label>
        <button type="button" onClick={() => void page.current?.requestFullscreen?.().catch(() => undefined)}>
          Full screen
        </button>
        <button type="button" onClick={() => globalThis.print()}>
          Print
        </button>
      </form>
      {shown ? (
        <>
          <MovableSection input={input} ratio={shown.pair.ratio} move={setOffset} />
          <ul className="plain said-flow" aria-live="polite">
            {veinFlowLines(shown).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <Plate
            number={2}
            figure={flowCurve({
              id: "curve",
              sizes,
              chosenMm:
                sizes.find((size) => Math.abs(size.outsideDiameterMm - outside) < NEAR)?.outsideDiameterMm ?? outside,
              veinMm: diameter,
              veinSdMm: from.sdMm,
            })}
          />
        </>
      ) : (
        <p className="headline">{refused ?? "Type the inside diameter of the vein, 0.5 to 20 mm."}</p>
      )}
      <LumenSection outsideDiameterMm={outside} lumens={lumens} assumed={assumed} />
      <MixingSection assumed={assumed} />
      <p className="soft">{safetyStatement}</p>
    </main>
  );
}

/** The section follows the slider and the pointer; one drawing a frame, however fast the hand. */
function MovableSection({
  input,
  ratio,
  move,
}: {
  readonly input: Parameters<typeof flowSection>[0];
  readonly ratio: number;
  readonly move: (offset: number) => void;
}): ReactNode {
  const { id, diameterMm, outsideDiameterMm, lumens, offset, wallMm, septumMm, slowBelow } = input;
  const figure = useMemo(
    () => flowSection({ id, diameterMm, outsideDiameterMm, lumens, offset, wallMm, septumMm, slowBelow }),
    [id, diameterMm, outsideDiameterMm, lumens, offset, wallMm, septumMm, slowBelow],
  );
  const wanted = useRef<number>(undefined);
  const frame = useRef(0);
  useEffect(() => () => cancelAnimationFrame(frame.current), []);
  const follow = useCallback(
    (event: React.PointerEvent<HTMLElement>) => {
      const svg = event.currentTarget.querySelector("svg");
      if (!svg || (event.type === "pointermove" && event.buttons === 0)) return;
      const { left, width } = svg.getBoundingClientRect();
      const perUnit = width / 900;
      const radius = Number(svg.getAttribute("data-radius"));
      const x = ((event.clientX - left) / perUnit - 220) / radius;
      if (Math.abs(x) > 1.2) return;
      wanted.current = Math.min(1, Math.max(0, x / (1 - ratio)));
      cancelAnimationFrame(frame.current);
      frame.current = requestAnimationFrame(() => {
        if (wanted.current !== undefined) move(wanted.current);
      });
    },
    [move, ratio],
  );
  return (
    <div className="movable" role="presentation" onPointerDown={follow} onPointerMove={follow}>
      <Plate number={1} figure={figure} />
    </div>
  );
}

function Plate({ figure, number }: { readonly figure: Figure; readonly number: number }): ReactNode {
  return (
    <figure>
      <div className="drawing" dangerouslySetInnerHTML={{ __html: figure.svg }} />
      <figcaption>
        Plate {number}. {figure.sentence}
      </figcaption>
      <FigureTable table={figure.table} />
    </figure>
  );
}

function Pick({
  label,
  options,
  now,
  pick,
}: {
  readonly label: string;
  readonly options: readonly (readonly [value: string, word: string])[];
  readonly now: string;
  readonly pick: (value: string) => void;
}): ReactNode {
  return (
    <fieldset className="choice">
      <legend>{label}</legend>
      {options.map(([value, word]) => (
        <label key={value} className={now === value ? "pressed" : undefined}>
          <input type="radio" name={`flow-${label}`} checked={now === value} onChange={() => pick(value)} />
          {word}
        </label>
      ))}
    </fieldset>
  );
}
