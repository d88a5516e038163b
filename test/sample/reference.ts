import { readFileSync } from 'node:fs';

const text = (path: string): string =>
  readFileSync(new URL(`../reference/${path}`, import.meta.url), 'utf8');

/** What a script of test/reference/sample/ wrote, as its caller describes it. */
export const fixture = <T>(name: string): T => JSON.parse(text(`sample/${name}`)) as T;

/** sp::meuse: 155 places along a river (metres), and the zinc found there. */
export function meuse(): { x: number; y: number; zinc: number }[] {
  const [, ...rows] = text('stations/meuse.csv').trim().split('\n');
  return rows.map((row) => {
    const [x, y, , zinc] = row.split(',').map(Number);
    return { x: x!, y: y!, zinc: zinc! };
  });
}
