import { existsSync, readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { infer as inferred } from '../findings/infer.ts';
import type { Inference } from '../findings/inference.ts';
import { readFindings } from '../findings/read.ts';
import type { ShareEstimate } from '../findings/share.ts';
import { Refusal } from '../read/outcome.ts';
import { discoverySize } from '../sample/discovery.ts';
import { type PlanHead, planDigest, type SamplingPlan } from '../sample/plan.ts';
import { proportionSize } from '../sample/proportion.ts';
import { defaultRequest, type SelectionRequest } from '../sample/request.ts';
import type { Design, Outcome, SampleUnit, StratumField } from '../sample/types.ts';
import type { Analyst } from '../session-types.ts';
import { defaultSettings } from '../settings.ts';
import { inferenceText } from '../survey/inference-file.ts';
import { outlineFrom } from '../survey/learn.ts';
import { planCsv, planJson } from '../survey/plan-files.ts';
import { lockedPlan, shownLocked } from '../survey/plan-standing.ts';
import type { PopulationQuery } from '../survey/walls.ts';
import { softwareName } from '../version.ts';
import { fileSource, writeWhole } from './files.ts';
import { type Flags, one, UsageError, whole } from './flags.ts';

type Print = (line: string) => void;

export const sampleFlags = {
  size: { value: 'N', help: 'number of openings' },
  margin: { value: 'E', help: 'or: margin of the share to estimate, such as 0.1' },
  confidence: { value: 'C', help: 'confidence of margin or catch (0.95)' },
  'catch-share': {
    value: 'P',
    help: 'or: least share of softened walls of which one is to be seen',
  },
  detect: { value: 'Q', help: 'chance that an opening on a softened wall shows it (1)' },
  unit: { value: 'wall|building', help: 'what is opened (wall)' },
  strata: { value: 'a,b', help: 'tier, material, era, orientation, height; the first counts most' },
  method: { value: 'simple|stratified|pps|balanced', help: 'how units are chosen (simple)' },
  replacements: { value: 'N', help: 'replacements in each stratum, in order (0)' },
  seed: { value: 'S', help: 'seed of the draw (1)' },
  by: { value: 'NAME', help: 'who chooses, for the plan' },
  on: { value: 'DATE', help: 'day of the frame, for the plan' },
  out: {
    value: 'F.csv',
    help: 'file to write; F.csv.plan.json beside it is the locked plan',
    needed: true,
  },
} as const;

export const inferFlags = {
  sample: { value: 'F.csv', help: 'the sample, with its .plan.json beside it', needed: true },
  findings: { value: 'F', help: 'findings by the headings of the contract', needed: true },
  confidence: { value: 'C', help: 'confidence of the intervals (0.95)' },
  detect: { value: 'Q', help: 'chance that an opening on a softened wall shows it (1)' },
  out: { value: 'F.json', help: 'also write what was found as JSON' },
} as const;

function among<T extends string>(flags: Flags, name: string, words: readonly T[], otherwise: T): T {
  const text = one(flags, name) ?? otherwise;
  const found = words.find((word) => word === text);
  if (!found) throw new UsageError(`--${name} is one of ${words.join(', ')}, not "${text}".`);
  return found;
}

/** A share of 1; throws a UsageError for anything else. */
function share(flags: Flags, name: string, otherwise: number): number {
  const text = one(flags, name);
  if (text === undefined) return otherwise;
  const value = Number(text);
  if (text.trim() !== '' && value > 0 && value <= 1) return value;
  throw new UsageError(
    `--${name} needs a number above 0 and at most 1, such as 0.95, not "${text}".`,
  );
}

const fields: readonly StratumField[] = ['tier', 'material', 'era', 'orientation', 'height'];

function strataIn(flags: Flags): StratumField[] {
  const words = (one(flags, 'strata') ?? '').split(',').map((word) => word.trim());
  return words
    .filter((word) => word !== '')
    .map((word) => {
      const found = fields.find((field) => field === word);
      if (found) return found;
      throw new UsageError(`--strata takes ${fields.join(', ')}, not "${word}".`);
    });
}

interface Size {
  readonly openings: number;
  readonly reason: string;
}

const orRefuse = <T>(file: string, outcome: Outcome<T>) => {
  if (outcome.ok) return outcome;
  throw new Refusal(file, outcome.says.join(' '));
};

/** Number of openings by the one of the three ways that was asked for. */
function sizeOf(flags: Flags, population: number, unit: SampleUnit): Size {
  const confidence = share(flags, 'confidence', 0.95);
  const detection = share(flags, 'detect', 1);
  const ways = ['size', 'margin', 'catch-share'].filter((name) => flags[name] !== undefined);
  if (ways.length !== 1) {
    throw new UsageError('Give one of --size, --margin or --catch-share.');
  }
  if (flags.size !== undefined) {
    return {
      openings: whole(flags, 'size', 0),
      reason: 'Given by hand, not computed from an aim.',
    };
  }
  if (flags.margin !== undefined) {
    const margin = share(flags, 'margin', 0.1);
    const { n } = orRefuse('', proportionSize({ population, margin, confidence, share: 0.5 }));
    return {
      openings: n,
      reason: `To estimate a share near 0.5 of ${population} ${unit}s within ${margin} with confidence ${confidence}, by simple random selection.`,
    };
  }
  const least = share(flags, 'catch-share', 0.05);
  const { n } = orRefuse('', discoverySize({ population, share: least, confidence, detection }));
  return {
    openings: n,
    reason: `To see at least one softened ${unit} with confidence ${confidence} if ${least} of ${population} are, each opening seeing it with chance ${detection}.`,
  };
}

const designs: readonly Exclude<Design, 'replicated'>[] = [
  'simple',
  'stratified',
  'pps',
  'balanced',
];

/** Draws a sample over what is open, locks its plan and writes both. */
export async function drawSample(flags: Flags, session: Analyst, print: Print): Promise<void> {
  const out = one(flags, 'out')!;
  if (!/\.csv$/i.test(out)) throw new UsageError(`--out ${out}: the file must end in .csv.`);
  const unit = among<SampleUnit>(flags, 'unit', ['wall', 'building'], 'wall');
  const asked: PopulationQuery = { query: { by: 'index' }, unit };
  const { units, buildings } = await session.strata(asked, []);
  const { openings, reason } = sizeOf(flags, units, unit);
  const strata = strataIn(flags);
  const request: SelectionRequest = {
    ...defaultRequest,
    design: among(flags, 'method', designs, strata.length > 0 ? 'stratified' : 'simple'),
    openings,
    strata,
    seed: whole(flags, 'seed', 1),
    replacementsPerStratum: whole(flags, 'replacements', 0),
  };
  const head: PlanHead = {
    planId: out
      .split(/[\\/]/)
      .at(-1)!
      .replace(/\.csv$/i, ''),
    population: `every scored ${unit} of the portfolio`,
    frameDate: one(flags, 'on') ?? 'not stated',
    chosenBy: one(flags, 'by') ?? 'not stated',
    chosenOn: one(flags, 'on') ?? 'not stated',
    software: softwareName,
    inputs: {},
    costs: {},
    sizeReason: reason,
  };
  const drawn = orRefuse(out, await session.draw(asked, request, head));
  const shown = shownLocked(lockedPlan(drawn, head.chosenOn));
  writeWhole({ [out]: planCsv(shown, 'metric'), [`${out}.plan.json`]: planJson(shown) });
  print(`${units} ${unit}s of ${buildings} buildings; ${reason}`);
  for (const line of [...drawn.plan.method, ...drawn.says]) print(line);
  print(`Generator ${drawn.plan.generator}, seed ${drawn.plan.seed}.`);
  print(`Wrote ${out} and ${out}.plan.json, locked under SHA-256 ${shown.locked!.digest}.`);
  print(
    'Only walls chosen by chance speak for the others. Before cutting: local codes, licensed practice, and notice to all parties.',
  );
}

interface ReadPlan {
  readonly plan: SamplingPlan;
  readonly digest: string;
}

/** The locked plan beside a sample. Throws a Refusal where it is not there, or not what was locked. */
function planBeside(path: string): ReadPlan {
  const beside = `${path}.plan.json`;
  if (!existsSync(path)) throw new Refusal(path, `There is no file ${path}. Check the path.`);
  if (!existsSync(beside)) {
    throw new Refusal(
      beside,
      `${beside} is not there: the plan that belongs to the sample. Put it beside ${path}.`,
    );
  }
  const plan = parsedPlan(beside);
  const rows = Papa.parse(readFileSync(path, 'utf8'), { header: true, skipEmptyLines: true }).data;
  const locked = (rows[0] as Readonly<Record<string, string>> | undefined)?.plan_sha256;
  const digest = planDigest(plan);
  if (locked === digest) return { plan, digest };
  throw new Refusal(
    beside,
    `${beside} is not the plan that ${path} was locked under: one of the two was changed after it was drawn. Use the files as they were written.`,
  );
}

function parsedPlan(path: string): SamplingPlan {
  try {
    const plan = JSON.parse(readFileSync(path, 'utf8')) as SamplingPlan;
    if (Array.isArray(plan.units) && typeof plan.head.planId === 'string') return plan;
  } catch {
    // Falls through to the sentence.
  }
  throw new Refusal(path, `${path} is not a sampling plan as “rainledger sample” writes it.`);
}

const percent = (x: number): string => `${Math.round(x * 1000) / 10} %`;

const said = (what: string, { share: of, low, high, n, found, interval }: ShareEstimate): string =>
  `${what}: ${percent(of)}, between ${percent(low)} and ${percent(high)} (${interval}); ${found} of ${n} opened.`;

function printInference({ overall, strata, says, question, unit }: Inference, print: Print): void {
  print(`Softened or decayed sheathing, ${percent(question.confidence)} intervals, unit: ${unit}.`);
  if (overall) {
    print(said(`Share of ${unit}s`, overall.share));
    print(said('Share of their area', overall.area));
  }
  if (strata.length > 1) {
    for (const { stratum, share: of } of strata) if (of) print(`  ${said(stratum, of)}`);
  }
  for (const line of says) print(line);
  print('Screening, not diagnosis. Local codes and a licensed professional decide.');
}

/** Estimates from findings what a locked sample says of its population. */
export async function inferFrom(flags: Flags, print: Print): Promise<void> {
  const { plan, digest } = planBeside(one(flags, 'sample')!);
  const options = {
    confidence: share(flags, 'confidence', 0.95),
    detection: share(flags, 'detect', 1),
  };
  if (options.confidence === 1) throw new UsageError('--confidence must be below 1.');
  const read = await readFindings(fileSource(one(flags, 'findings')!), {
    asOf: defaultSettings.constants.as_of!,
    // Without the portfolio every wall may be one of it; those outside the plan are kept out of the estimate.
    walls: { get: () => null },
  });
  print(
    `${read.file}: ${read.rowsRead} rows read = ${read.table.n} accepted + ${read.setAside.length} set aside.`,
  );
  for (const { message } of read.setAside.slice(0, 20)) print(`  ${message}`);
  const found = inferred(outlineFrom(plan), read.table, options);
  printInference(found, print);
  const out = one(flags, 'out');
  if (out === undefined) return;
  const locked = { plan, digest, field: [], lockedAt: plan.head.chosenOn };
  writeWhole({ [out]: inferenceText(locked, found, false) });
  print(`Wrote ${out}.`);
}
