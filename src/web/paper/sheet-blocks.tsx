// a sheet is set once and never put in another order
/* oxlint-disable no-array-index-key */
import type { ReactNode } from "react";
import type { Block, FormRow, SheetDrawing, SheetRow } from "../../paper/line/index.ts";

/** The parts of a sheet in their order; no word or number is made here. */
export const SheetBlocks = ({ blocks }: { readonly blocks: readonly Block[] }): ReactNode =>
  blocks.map((block, at) => <Part key={at} block={block} />);

function Part({ block }: { readonly block: Block }): ReactNode {
  switch (block.kind) {
    case "heading":
      return <h2>{block.text}</h2>;
    case "loud":
    case "say":
    case "soft":
      return <p className={block.kind}>{block.text}</p>;
    case "list": {
      const items = block.items.map((item) => <li key={item}>{item}</li>);
      return block.numbered ? <ol>{items}</ol> : <ul>{items}</ul>;
    }
    case "numbers":
      return <dl className="big">{block.items.map(valued)}</dl>;
    case "rows":
      return <dl className="said">{block.rows.map(valued)}</dl>;
    case "form":
      return <Form missing={block.missing} rows={block.rows} />;
    case "boxes":
      return (
        <p className="choose">
          {block.label} <Boxes options={block.options} ticked={[block.ticked]} />
        </p>
      );
    case "sign":
    case "write":
      return (
        <div className={block.kind}>
          {block.items.map((item) => (
            <p key={item}>{item}</p>
          ))}
        </div>
      );
    case "typed":
      return (
        <div className="typed">
          <pre>{block.lines.join("\n")}</pre>
          <p>{block.caption}</p>
        </div>
      );
    case "table":
      return (
        <table className={`listed${block.tight ? " tight" : ""}${block.grouped ? " grouped" : ""}`}>
          <thead>
            <tr>
              {block.head.map((word, at) => (
                <th key={word} scope="col" style={{ width: `${widthShare(block.shares, at)}%` }}>
                  {word}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {block.rows.map((row, at) => (
              <tr key={at}>
                {row.map((cell, column) => (
                  <td key={column}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      );
    case "drawing":
      return (
        <figure>
          <Engraved drawing={block.drawing} />
          {block.caption ? <figcaption>{block.caption}</figcaption> : null}
        </figure>
      );
    case "pictures":
      return (
        <div className="pictures">
          {block.items.map(({ drawing, title, words }) => (
            <figure key={title}>
              <Engraved drawing={drawing} />
              <figcaption>
                <b>{title}</b>
                <span>{words}</span>
              </figcaption>
            </figure>
          ))}
        </div>
      );
    case "columns":
      return (
        <div className="beside" style={{ gridTemplateColumns: block.shares.map((share) => `${share}fr`).join(" ") }}>
          {block.columns.map((column, at) => (
            <div key={at}>
              <SheetBlocks blocks={column} />
            </div>
          ))}
        </div>
      );
    default:
      return block satisfies never;
  }
}

const widthShare = (shares: readonly number[], at: number): number =>
  (100 * (shares[at] ?? 1)) / shares.reduce((sum, share) => sum + share, 0);

const valued = ({ label, value, note }: SheetRow): ReactNode => (
  <div key={label}>
    <dt>{label}</dt>
    <dd>
      {value}
      {note ? <i> {note}</i> : null}
    </dd>
  </div>
);

const Engraved = ({ drawing }: { readonly drawing: SheetDrawing }): ReactNode => (
  <div
    className="engraved"
    style={{ width: `${drawing.widthMm}mm` }}
    dangerouslySetInnerHTML={{ __html: drawing.svg }}
  />
);

/** Over the numbers, the questions and the answers. */
const HEAD = "\u00a0";

const Boxes = ({
  options,
  ticked,
}: {
  readonly options: readonly string[];
  readonly ticked: readonly string[];
}): ReactNode =>
  options.map((option) => (
    <span key={option} className="box">
      <span className="tick">{ticked.includes(option) ? "x" : ""}</span> {option}
    </span>
  ));

function Form({
  missing,
  rows,
}: {
  readonly missing: readonly string[];
  readonly rows: readonly FormRow[];
}): ReactNode {
  return (
    <table className="form">
      <thead>
        <tr>
          <th colSpan={3} scope="col">
            {HEAD}
          </th>
          {missing.map((word) => (
            <th key={word} scope="col">
              {word}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.number}>
            <td className="number">{row.number}</td>
            <th scope="row">{row.label}</th>
            <td>
              {row.kind === "boxes" ? (
                <Boxes options={row.options} ticked={row.ticked} />
              ) : (
                <span className="rule">
                  <b>{row.value}</b> <span>{row.unit}</span>
                </span>
              )}
              {row.note ? <i> {row.note}</i> : null}
            </td>
            {missing.map((word) => (
              <td key={word} className="why">
                <span className="tick">{row.missing === word ? "x" : ""}</span>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
