/** Text that came from a person may hold any sign; none of it may become markup. */
export const escaped = (text: string): string =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");

/** A coordinate at a hundredth of a pixel: finer than any eye, coarse enough to keep the drawing small. */
export const px = (value: number): string => {
  const text = value.toFixed(2);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
};

type Attributes = Readonly<Record<string, string | number | undefined>>;

const written = (attributes: Attributes): string =>
  Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${name}="${typeof value === "number" ? exact(name, value) : escaped(String(value))}"`)
    .join("");

/** A measured value stays whole; a place on the plate is rounded. */
const exact = (name: string, value: number): string => (name.startsWith("data-") ? String(value) : px(value));

/** One element; its children are markup already, its attributes are escaped here. */
export const element = (name: string, attributes: Attributes, children = ""): string =>
  children === "" ? `<${name}${written(attributes)}/>` : `<${name}${written(attributes)}>${children}</${name}>`;

export const group = (attributes: Attributes, ...children: readonly string[]): string => {
  const inside = children.join("");
  return inside === "" ? "" : element("g", attributes, inside);
};
