/**
 * The part of PapaParse this step uses. Declared here because the published types bring in Node and the page, which
 * analysis/ must not see, and leave the parser's result untyped.
 */
declare module 'papaparse' {
  interface Parsed {
    readonly data: string[][];
    readonly errors: readonly { readonly code: string; readonly row?: number }[];
    /** `cursor`: characters of the input that belong to the records in `data`. */
    readonly meta: { readonly cursor: number };
  }
  class Parser {
    constructor(config: { delimiter: string; newline: '\n' | '\r' });
    parse(input: string, baseIndex: number, ignoreLastRow: boolean): Parsed;
  }
  function parse(
    text: string,
    config: { header: true; skipEmptyLines: true },
  ): { readonly data: Record<string, string>[] };
  function unparse(
    rows: readonly (readonly unknown[])[],
    config: { newline: string; escapeFormulae: boolean },
  ): string;
  const Papa: { Parser: typeof Parser; parse: typeof parse; unparse: typeof unparse };
  export default Papa;
}
