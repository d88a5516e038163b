import { readFileSync } from 'node:fs';

/** What a script of test/reference/findings/ wrote, as its caller describes it. */
export const fixture = <T>(name: string): T =>
  JSON.parse(readFileSync(new URL(`../reference/findings/${name}`, import.meta.url), 'utf8')) as T;
