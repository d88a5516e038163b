/** What is told of the markup of a part, in order. Names come without their prefix. */
export interface Handlers {
  /** An element begins; its attributes as they stand. One that ends at once is told of by `close` next. */
  readonly open: (name: string, attributes: string) => void;
  readonly close: (name: string) => void;
  /** Text between tags, not yet decoded; long texts may come in one piece only. */
  readonly text: (raw: string) => void;
}

/** Characters beyond which a tag or text is none that a spreadsheet program writes: a cell holds 32,767. */
const longest = 1 << 20;

const [quote, apostrophe, greater, slash] = [34, 39, 62, 47];

/** Place after the `>` that ends a tag, outside quotation marks; −1 where it has not come yet. */
function endOfTag(text: string, from: number): number {
  let open = 0;
  for (let i = from; i < text.length; i += 1) {
    const code = text.charCodeAt(i);
    if (open !== 0) open = code === open ? 0 : open;
    else if (code === quote || code === apostrophe) open = code;
    else if (code === greater) return i + 1;
  }
  return -1;
}

/** Markup that is no tag, by its beginning and end. */
const asides = [
  { begins: '<!--', ends: '-->' },
  { begins: '<![CDATA[', ends: ']]>' },
  { begins: '<?', ends: '?>' },
] as const;

function endOfMarkup(text: string, from: number): number {
  const second = text.charCodeAt(from + 1);
  if (second !== 33 && second !== 63) return endOfTag(text, from);
  const aside = asides.find(({ begins }) => text.startsWith(begins, from));
  if (!aside) return endOfTag(text, from);
  const at = text.indexOf(aside.ends, from + aside.begins.length);
  return at < 0 ? -1 : at + aside.ends.length;
}

const localName = (name: string): string =>
  name.includes(':') ? name.slice(name.indexOf(':') + 1) : name;

function takeTag(handlers: Handlers, text: string, from: number, to: number): void {
  const closes = text.charCodeAt(from + 1) === slash;
  const alone = text.charCodeAt(to - 2) === slash;
  const end = alone ? to - 2 : to - 1;
  let after = from + (closes ? 2 : 1);
  const begins = after;
  while (after < end && text.charCodeAt(after) > 32) after += 1;
  const name = localName(text.slice(begins, after));
  if (!closes) handlers.open(name, text.slice(after, end));
  if (closes || alone) handlers.close(name);
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

function takeMarkup(handlers: Handlers, text: string, from: number, to: number): void {
  const second = text.charCodeAt(from + 1);
  if (second !== 33 && second !== 63) takeTag(handlers, text, from, to);
  else if (text.startsWith('<![CDATA[', from)) handlers.text(escaped(text.slice(from + 9, to - 3)));
}

/**
 * A reader of the markup that workbooks are written in (XML without declarations of its own), fed with text as it comes.
 * `refuse` is called where a tag or text never ends.
 */
export function markupReader(handlers: Handlers, refuse: () => never): (piece: string) => void {
  let pending = '';
  return (piece) => {
    const text = pending + piece;
    let at = 0;
    for (;;) {
      const from = text.indexOf('<', at);
      const to = from < 0 ? -1 : endOfMarkup(text, from);
      if (to < 0) break;
      if (from > at) handlers.text(text.slice(at, from));
      takeMarkup(handlers, text, from, to);
      at = to;
    }
    pending = text.slice(at);
    if (pending.length > longest) refuse();
  };
}

const named: Readonly<Record<string, string>> = {
  lt: '<',
  gt: '>',
  amp: '&',
  quot: '"',
  apos: "'",
};

const letter = (code: number): string =>
  code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '\ufffd';

/** Text as meant, from text as it stands between tags or in an attribute (XML 1.0, 4.1 and 4.6). */
export const decoded = (raw: string): string =>
  raw.includes('&')
    ? raw.replace(/&(?:#x([\da-f]{1,8})|#(\d{1,9})|(\w+));/gi, (whole, hex, decimal, name) => {
        if (hex) return letter(Number.parseInt(hex, 16));
        return decimal ? letter(Number(decimal)) : (named[name] ?? whole);
      })
    : raw;

/** Letters that markup may not hold are written _x000D_ (ECMA-376 part 1, 22.9.2.19). */
export const unescaped = (text: string): string =>
  text.includes('_x')
    ? text.replace(/_x([\da-f]{4})_/gi, (_, hex) => String.fromCharCode(Number.parseInt(hex, 16)))
    : text;

const forms = new Map<string, RegExp>();

/** The value of an attribute, with or without a prefix; undefined where it is absent. */
export function attribute(attributes: string, name: string): string | undefined {
  let form = forms.get(name);
  if (!form) {
    form = new RegExp(String.raw`(?:^|\s)(?:\w+:)?${name}\s*=\s*(?:"([^"]*)"|'([^']*)')`);
    forms.set(name, form);
  }
  const found = form.exec(attributes);
  return found ? decoded(found[1] ?? found[2]!) : undefined;
}
