import { buildingDetail, rankedRows } from './building.ts';
import { numbers } from './columns.ts';
import type { Engine } from './engine/port.ts';
import { about } from './export/about.ts';
import { rankingText } from './export/write.ts';
import { type Assets, type Portfolio, readInputs } from './inputs.ts';
import { ledgerOf } from './ledger/ledger.ts';
import { loadReference, score } from './pipeline.ts';
import { type RainAtBuildings, rainAtBuildings } from './rain/at-buildings.ts';
import { type MadeRain, rainMaking, rainReport } from './rain/making.ts';
import { wallAreas } from './rank/areas.ts';
import { chase } from './rank/chase.ts';
import { effectOf, placesNow } from './rank/effect.ts';
import { frame } from './rank/frame.ts';
import { orderStatement } from './rank/order.ts';
import type { Analyst, Inputs } from './session-types.ts';
import { changesOf, defaultSettings, type Settings, withSettings } from './settings.ts';
import { noRecord, ofRecord } from './wetting/wind.ts';

/** A portfolio that has been read and scored, and what it was scored with. */
interface Scored {
  readonly portfolio: Portfolio;
  readonly settings: Settings;
  readonly making: MadeRain;
  readonly rain: RainAtBuildings;
}

/** The analysis over one engine: what the page's worker and the command line both drive. */
export async function createSession(
  engine: Engine,
  assets: Assets,
  settings: Settings = defaultSettings,
): Promise<Analyst> {
  await loadReference(engine);
  let current: Scored | undefined;
  let wanted = settings;
  const opened = (): Scored => {
    if (!current) throw new Error('no portfolio is open');
    return current;
  };
  return {
    open: async (inputs: Inputs) => {
      const portfolio = await readInputs(inputs, assets, wanted.constants.as_of!);
      await engine.load('wall_record', portfolio.walls);
      current = await scored(engine, portfolio, wanted);
      return portfolio.report;
    },
    rescore: async (changes) => {
      wanted = withSettings(changes);
      const before = await placesNow(engine);
      current = await scored(engine, opened().portfolio, wanted);
      return effectOf(before, await placesNow(engine));
    },
    settings: async () => changesOf(wanted),
    frame: () => frame(engine),
    order: async (query) => {
      const { text, params } = orderStatement(query);
      return Int32Array.from(numbers(await engine.query(text, params), 'b'));
    },
    rows: (ordinals) => rankedRows(engine, ordinals),
    building: (b) => buildingDetail(engine, opened().portfolio, b),
    ledger: (b, column, wall) =>
      ledgerOf({ ...opened(), engine, settings: opened().settings.constants }, { b, column, wall }),
    chase: () => chase(engine, opened().settings.constants),
    wallAreas: () => wallAreas(engine),
    rainReport: async () => rainReport(opened().making),
    weather: async () => opened().portfolio.weather,
    write: async (format, units) => {
      const ranking = await engine.query(
        'SELECT * FROM ranking ORDER BY rank NULLS LAST, building_id',
      );
      const { portfolio } = opened();
      return { text: rankingText(ranking, portfolio.extra, format, units), about: about(opened()) };
    },
    rainSheet: async () => opened().portfolio.grid,
  };
}

async function scored(engine: Engine, portfolio: Portfolio, settings: Settings): Promise<Scored> {
  const { buildings, weather } = portfolio;
  const { constants } = settings;
  const making = rainMaking(portfolio, constants);
  const rain = rainAtBuildings(buildings, making, constants);
  await engine.load('building', { n: buildings.n, cols: { ...buildings.cols, ...rain.columns } });
  await score(engine, settings, weather ? ofRecord(weather) : noRecord(constants));
  return { portfolio, settings, making, rain };
}
