import { type Bench, type Line, median } from './line.ts';
import { onPage, type Ranked, rankFiles } from './page.ts';
import { nativeAlone, nativeAloneName, type PortfolioFiles, portfolioOf } from './portfolio.ts';
import { within } from './within.ts';

const ranked = async (bench: Bench, files: PortfolioFiles): Promise<Ranked> =>
  onPage(await bench.browser(), async (page) =>
    rankFiles(page, await bench.origin(), [files.buildings, files.walls]),
  );

/** 100,000 buildings in the page, all of it. */
export async function hundredThousand(bench: Bench): Promise<readonly Line[]> {
  const files = portfolioOf(bench.folder, 100_000);
  const taken: number[] = [];
  for (let i = 0; i < 3; i++) taken.push((await ranked(bench, files)).ms);
  return [
    {
      work: `${files.size}: CSV bytes to ranked table, page`,
      figure: median(taken),
      unit: 'ms',
      baseline: await nativeAlone(files, 3),
      baselineName: nativeAloneName,
      goal: { most: 3000 },
    },
  ];
}

/** A million buildings with their walls, once: it takes minutes. */
export async function million(bench: Bench): Promise<readonly Line[]> {
  const files = portfolioOf(bench.folder, 1_000_000);
  const { ms, longestTask } = await ranked(bench, files);
  return [
    {
      work: `${files.size}: CSV bytes to ranked table, page`,
      figure: ms,
      unit: 'ms',
      baseline: await nativeAlone(files, 1),
      baselineName: nativeAloneName,
      goal: { ratio: 2.5 },
    },
    longest(files.size, longestTask),
  ];
}

/** That the page stays free while it reads and scores. */
export const longest = (size: string, figure: number): Line =>
  within(`${size}: longest task of the page’s own thread meanwhile`, figure, 100);
