import { fileSource, readAssets } from '../../analysis/cli/files.ts';
import { openNative } from '../../analysis/engine/native.ts';
import { createSession } from '../../analysis/session.ts';
import { type Bench, type Line, timed } from './line.ts';
import { nativeAlone, nativeAloneName, portfolioOf } from './portfolio.ts';

/** The same portfolio through the session that the command line drives. */
export async function commandLine(bench: Bench): Promise<readonly Line[]> {
  const files = portfolioOf(bench.folder, 100_000);
  const figure = await timed(3, async () => {
    const engine = await openNative();
    const session = createSession(engine, readAssets());
    await session.open({
      buildings: fileSource(files.buildings),
      walls: [fileSource(files.walls)],
    });
    await session.order({ by: 'index' });
    await engine.close();
  });
  return [
    {
      work: `${files.size}: CSV bytes to ranking, command line`,
      figure,
      unit: 'ms',
      baseline: await nativeAlone(files, 3),
      baselineName: nativeAloneName,
      goal: { ratio: 2 },
    },
  ];
}
