import { Refused } from "../file/refusal.ts";

/** What was read: a tag that opens, one that closes, text between two, or that more of the part is needed. */
export type XmlToken = "open" | "close" | "text" | "more" | "end";

/** A tag or a text longer than this is no part of a table, and is refused while it is still small. */
const LONGEST_TOKEN = 1_000_000;
const DEEPEST = 64;
const MOST_ATTRIBUTES = 64;
const [TAB, NEW_LINE, RETURN, SPACE] = [9, 10, 13, 32] as const;
const [LESS, GREATER, SLASH, EQUALS, COLON] = [60, 62, 47, 61, 58] as const;
const [EXCLAMATION, QUESTION, DOUBLE_QUOTE, QUOTE] = [33, 63, 34, 39] as const;
const isSpace = (code: number): boolean => code === SPACE || code === NEW_LINE || code === RETURN || code === TAB;
const NAMED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/**
 * Reads XML piece by piece, one token at a time: what is held is one piece and one unfinished token. A type definition is
 * refused, so there are no entities but the five of XML; tags that do not pair are refused.
 * Holds: well-formed XML 1.0 without a type definition; a prefix is left off a name. Errors: Refused.
 * Source: W3C, Extensible Markup Language 1.0, 5th edition, 2.1, 2.4 to 2.8, 2.11, 3.1 and 4.1 (from memory).
 * Example: feeding `<a b="1">x</a>` gives open a, text x, close a.
 */
export class XmlReader {
  /** The name of the tag just read, without its prefix. */
  name = "";
  /** The tag closed itself; no close follows. */
  empty = false;
  /** How many tags are open, the one just read included. */
  depth = 0;

  private text = "";
  private at = 0;
  private from = 0;
  private to = 0;
  private literal = false;
  private ended = false;
  private leaving = false;
  private readonly part: string;
  private readonly open: string[] = [];
  private readonly places: number[] = [];
  private attributes = 0;

  constructor(part: string) {
    this.part = part;
  }

  /** Gives the next piece; without one the part is at its end. */
  feed(piece?: string): void {
    if (piece === undefined) this.ended = true;
    else {
      this.text = this.at < this.text.length ? this.text.slice(this.at) + piece : piece;
      this.at = 0;
    }
  }

  next(): XmlToken {
    if (this.leaving) {
      this.depth -= 1;
      this.leaving = false;
    }
    for (;;) {
      const { text, at } = this;
      if (at >= text.length) return this.wait();
      if (text.charCodeAt(at) !== LESS) {
        const end = text.indexOf("<", at);
        if (end === -1) return this.wait();
        this.at = end;
        if (this.depth === 0) {
          // outside of everything only space and the mark of an encoding may stand
          if (text.slice(at, end).replace("\uFEFF", "").trim() !== "") throw this.damaged("text outside");
          continue;
        }
        [this.from, this.to, this.literal] = [at, end, false];
        return "text";
      }
      const sign = text.charCodeAt(at + 1);
      if (sign === SLASH) return this.close();
      if (sign === QUESTION) {
        const end = text.indexOf("?>", at + 2);
        if (end === -1) return this.wait();
        this.at = end + 2;
      } else if (sign === EXCLAMATION) {
        const found = this.marked();
        if (found) return found;
      } else return Number.isNaN(sign) ? this.wait() : this.tag();
    }
  }

  /** The value of an attribute of the tag just opened, by its full name or, with a colon before it, by the end of one. */
  attribute(name: string): string | undefined {
    const { text, places } = this;
    const byEnd = name.charCodeAt(0) === COLON;
    let found = -1;
    for (let index = 0; index < this.attributes * 4; index += 4) {
      const from = places[index] as number;
      const length = (places[index + 1] as number) - from;
      const fits = byEnd
        ? length > name.length && text.startsWith(name, from + length - name.length)
        : length === name.length && text.startsWith(name, from);
      if (!fits) continue;
      if (found !== -1) throw this.damaged(`${name} stands twice`);
      found = index;
    }
    if (found === -1) return undefined;
    return decoded(text.slice(places[found + 2], places[found + 3]), () => this.damaged("a sign with no meaning"));
  }

  /** The text just read, its entities as the signs they stand for. */
  read(): string {
    const raw = this.text.slice(this.from, this.to);
    return this.literal ? raw : decoded(raw, () => this.damaged("a sign with no meaning"));
  }

  private wait(): "more" | "end" {
    const rest = this.text.length - this.at;
    if (!this.ended) {
      if (rest > LONGEST_TOKEN) throw new Refused("cell-too-large", `more than ${LONGEST_TOKEN} characters`);
      return "more";
    }
    if (this.depth > 0 || this.text.slice(this.at).trim() !== "") throw this.damaged("cut off");
    return "end";
  }

  private close(): XmlToken {
    const end = this.text.indexOf(">", this.at);
    if (end === -1) return this.wait();
    const name = this.text.slice(this.at + 2, end).trimEnd();
    const open = this.open.pop();
    if (name !== open) throw this.damaged(`${open ?? "nothing"} closed by ${name}`);
    this.name = withoutPrefix(name);
    this.leaving = true;
    this.at = end + 1;
    return "close";
  }

  /** A comment is passed over, literal text is text, and a definition is refused. */
  private marked(): XmlToken | undefined {
    const { text, at } = this;
    const COMMENT = "<!--";
    const LITERAL = "<![CDATA[";
    if (text.length - at < LITERAL.length && !text.startsWith(COMMENT, at)) {
      const rest = text.slice(at);
      if (COMMENT.startsWith(rest) || LITERAL.startsWith(rest)) return this.wait();
    }
    if (text.startsWith(COMMENT, at)) {
      const end = text.indexOf("-->", at + COMMENT.length);
      if (end === -1) return this.wait();
      this.at = end + 3;
      return undefined;
    }
    if (!text.startsWith(LITERAL, at)) throw new Refused("definitions-inside", this.part);
    const end = text.indexOf("]]>", at + LITERAL.length);
    if (end === -1) return this.wait();
    if (this.depth === 0) throw this.damaged("text outside");
    [this.from, this.to, this.literal] = [at + LITERAL.length, end, true];
    this.at = end + 3;
    return "text";
  }

  private tag(): XmlToken {
    const { text, places } = this;
    const { length } = text;
    let at = this.at + 1;
    const nameFrom = at;
    let prefixTo = -1;
    for (; at < length; at += 1) {
      const code = text.charCodeAt(at);
      if (code === GREATER || code === SLASH || code <= SPACE) break;
      if (code === COLON) prefixTo = at;
    }
    const nameTo = at;
    if (nameTo === nameFrom) throw this.damaged("a tag without a name");
    let count = 0;
    let empty = false;
    for (;;) {
      while (at < length && isSpace(text.charCodeAt(at))) at += 1;
      if (at >= length) return this.wait();
      const code = text.charCodeAt(at);
      if (code === GREATER) break;
      if (code === SLASH) {
        if (at + 1 >= length) return this.wait();
        if (text.charCodeAt(at + 1) !== GREATER) throw this.damaged("a stray stroke");
        empty = true;
        at += 1;
        break;
      }
      const from = at;
      while (at < length && text.charCodeAt(at) !== EQUALS && !isSpace(text.charCodeAt(at))) at += 1;
      const to = at;
      while (at < length && isSpace(text.charCodeAt(at))) at += 1;
      if (at + 1 >= length) return this.wait();
      if (text.charCodeAt(at) !== EQUALS) throw this.damaged("an attribute without a value");
      at += 1;
      while (at < length && isSpace(text.charCodeAt(at))) at += 1;
      if (at >= length) return this.wait();
      const quote = text.charCodeAt(at);
      if (quote !== DOUBLE_QUOTE && quote !== QUOTE) throw this.damaged("an attribute without quotes");
      const end = text.indexOf(quote === QUOTE ? "'" : '"', at + 1);
      if (end === -1) return this.wait();
      if (count === MOST_ATTRIBUTES) throw this.damaged("too many attributes");
      places[count * 4] = from;
      places[count * 4 + 1] = to;
      places[count * 4 + 2] = at + 1;
      places[count * 4 + 3] = end;
      count += 1;
      at = end + 1;
    }
    if (this.depth >= DEEPEST) throw this.damaged(`tags ${DEEPEST} deep`);
    const full = text.slice(nameFrom, nameTo);
    this.name = prefixTo === -1 ? full : text.slice(prefixTo + 1, nameTo);
    this.attributes = count;
    this.empty = empty;
    this.depth += 1;
    this.at = at + 1;
    if (empty) this.leaving = true;
    else this.open.push(full);
    return "open";
  }

  private damaged(what: string): Refused {
    return new Refused("zip-damaged", `${this.part}: ${what}`);
  }
}

const withoutPrefix = (name: string): string => (name.includes(":") ? name.slice(name.lastIndexOf(":") + 1) : name);

/** Text with its entities and line ends as XML means them. */
function decoded(raw: string, damaged: () => Refused): string {
  const text = raw.includes("\r") ? raw.replaceAll(/\r\n?/g, "\n") : raw;
  if (!text.includes("&")) return text;
  return text.replaceAll(/&([^;&]{0,12};?)/g, (_, inside: string) => {
    if (!inside.endsWith(";")) throw damaged();
    const name = inside.slice(0, -1);
    if (Object.hasOwn(NAMED, name)) return NAMED[name] as string;
    const [, hex, ten] = /^#(?:x([0-9a-f]{1,6})|([0-9]{1,7}))$/i.exec(name) ?? [];
    const code = hex === undefined ? Number(ten) : Number.parseInt(hex, 16);
    const isLetter =
      (code >= SPACE && code < 0xd800) ||
      (code >= 0xe000 && code <= 0x10ffff) ||
      [TAB, NEW_LINE, RETURN].includes(code as 9);
    if (!isLetter) throw damaged();
    return String.fromCodePoint(code);
  });
}
