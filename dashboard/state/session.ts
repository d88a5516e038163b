import { batch, createSignal } from 'solid-js';
import { withEdits } from '../../analysis/edits.ts';
import { createTurns } from '../../analysis/engine/turns.ts';
import type {
  Analyst,
  Edit,
  Effect,
  Frame,
  Inputs,
  LiveAnswer,
  Progress,
  ReadReport,
  Weights,
} from '../../analysis/session-types.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';

/** What the page is doing with files. A refusal leaves what was open before as it was. */
type Phase =
  | { readonly kind: 'opening'; readonly what: string }
  | { readonly kind: 'ready' }
  | { readonly kind: 'refused'; readonly file: string; readonly message: string }
  | { readonly kind: 'trouble'; readonly message: string };

/** What is open now. */
export interface Opened {
  /** Grows with every opening of files: places of buildings stay the same until it does. */
  readonly files: number;
  /** Grows with every scoring too, so that answers about an older one are told apart. */
  readonly version: number;
  readonly inputs: Inputs;
  readonly report: ReadReport;
  readonly frame: Frame;
}

/** Inputs at hand, or still to be fetched: that is done when their turn comes, so that openings stay in order. */
type Given = Inputs | (() => Promise<Inputs>);

export interface Session {
  readonly analyst: Analyst;
  readonly phase: () => Phase;
  readonly opened: () => Opened | null;
  /** Resolves to true where the files are open, false where they were refused or the engine stopped. */
  readonly open: (given: Given, what: string) => Promise<boolean>;
  /** How far the opening is; null when nothing is being opened. */
  readonly progress: () => Progress | null;
  /** Stops the opening: what was open before stays open. */
  readonly cancel: () => void;
  /** Reads what is open again with these corrections; `keep` is told of all corrections once they are read. */
  readonly correct: (
    edits: readonly Edit[],
    keep: (change: <T extends { readonly edits: readonly Edit[] }>(held: T) => T) => void,
  ) => Promise<boolean>;
  /** Opens again what is open, after the engine had to be started anew. */
  readonly reopen: () => Promise<void>;
  /** The settings in use, as differences from what ships; they last until the page is closed. */
  readonly changes: () => SettingsChanges;
  /** What the last change of settings moved; null before any. */
  readonly effect: () => Effect | null;
  /** Scores again under these settings, one run at a time; of those that wait only the newest is run. */
  readonly rescore: (changes: SettingsChanges) => Promise<void>;
  /** The ranking under weights that are being tried; null where none are. */
  readonly live: () => LiveAnswer | null;
  /** Ranks at once under these weights, to be followed by `rescore`; of those that wait only the newest is run. */
  readonly lean: (weights: Weights) => Promise<void>;
  /** Makes ready for `lean`, ahead of it. */
  readonly readyToLean: () => Promise<void>;
  /** True from the first change asked for until the newest is scored. */
  readonly rescoring: () => boolean;
  readonly trouble: (message: string) => void;
}

export function createSession(analyst: Analyst): Session {
  const [phase, setPhase] = createSignal<Phase>({ kind: 'opening', what: 'the invented example' });
  const [opened, setOpened] = createSignal<Opened | null>(null);
  const [changes, setChanges] = createSignal<SettingsChanges>({});
  const [effect, setEffect] = createSignal<Effect | null>(null);
  const [rescoring, setRescoring] = createSignal(false);
  const [live, setLive] = createSignal<LiveAnswer | null>(null);
  // Two runs that rebuild the engine's tables at once would mix them.
  const inTurn = createTurns();
  const [progress, setProgress] = createSignal<Progress | null>(null);
  let stopping = new AbortController();
  let lastAsked: Asked | null = null;
  /** The analysis will not start any more. */
  let gaveUp: Phase | null = null;
  let version = 0;
  let asked = 0;

  const read = async (given: Given, signal: AbortSignal): Promise<boolean> => {
    try {
      const inputs = await Promise.race([fetched(given), whenStopped(signal)]);
      const report = await analyst.open(inputs, { signal, onProgress: setProgress });
      const frame = await analyst.frame();
      version += 1;
      batch(() => {
        setLive(null);
        setOpened({ files: version, version, inputs, report, frame });
        if (inputs.settings) setChanges(inputs.settings);
        setEffect(null);
        setPhase({ kind: 'ready' });
      });
      return true;
    } catch (error) {
      // An engine that died is started anew, and what was asked for is opened then, unless it was given up.
      if (gaveUp) setPhase(gaveUp);
      else if (!isEngineStopped(error)) {
        lastAsked = askedOf(opened());
        batch(() => {
          renewed();
          setPhase(signal.aborted ? { kind: 'ready' } : phaseOf(error));
        });
      }
      return false;
    } finally {
      setProgress(null);
    }
  };
  /** What was open is open again: answers given while its tables were away are asked for anew. */
  const renewed = (): void => {
    const before = opened();
    if (!before) return;
    version += 1;
    setOpened({ ...before, version });
  };
  const open = (given: Given, what: string): Promise<boolean> => {
    lastAsked = { given, what };
    setPhase({ kind: 'opening', what });
    stopping = new AbortController();
    const { signal } = stopping;
    return inTurn(() => read(given, signal));
  };
  const correct: Session['correct'] = async (edits, keep) => {
    const before = opened()?.inputs;
    if (!before) return false;
    const all = withEdits(before.edits ?? [], edits);
    // The settings in use: those of the last opening may have been changed since.
    const again = { ...before, edits: all, settings: changes() };
    const done = await open(again, before.buildings.name);
    if (done) keep((held) => ({ ...held, edits: all }));
    return done;
  };
  const reopen = async (): Promise<void> => {
    if (!lastAsked) return;
    const { given, what } = lastAsked;
    const settings = changes();
    await open(async () => ({ ...(await fetched(given)), settings }), what);
  };
  const score = async (wanted: SettingsChanges): Promise<void> => {
    try {
      const moved = await analyst.rescore(wanted);
      const frame = await analyst.frame();
      const before = opened();
      if (!before) return;
      version += 1;
      batch(() => {
        setEffect(moved);
        setLive(null);
        setOpened({ ...before, version, frame });
      });
    } catch (error) {
      if (!isEngineStopped(error)) setPhase(phaseOf(error));
    }
  };
  let trying: Weights | null = null;
  let leaning = false;
  const lean = async (weights: Weights): Promise<void> => {
    trying = weights;
    if (leaning) return;
    leaning = true;
    try {
      while (trying) {
        const wanted: Weights = trying;
        trying = null;
        const found = await analyst.lean(wanted);
        if (!rescoring()) setLive(found);
      }
    } catch (error) {
      if (!isEngineStopped(error)) setPhase(phaseOf(error));
    } finally {
      leaning = false;
    }
  };
  const readyToLean = async (): Promise<void> => {
    // What goes wrong here goes wrong again, and is told, when a weight moves.
    if (!rescoring()) await analyst.prepareLean().catch(() => {});
  };
  const rescore = (wanted: SettingsChanges): Promise<void> => {
    asked += 1;
    const mine = asked;
    setChanges(wanted);
    setRescoring(true);
    return inTurn(async () => {
      if (mine === asked) await score(wanted);
      if (mine === asked) setRescoring(false);
    });
  };
  return {
    changes,
    effect,
    rescore,
    rescoring,
    live,
    lean,
    readyToLean,
    analyst,
    phase,
    opened,
    open,
    progress,
    cancel: () => stopping.abort(),
    correct,
    reopen,
    trouble: (message) => {
      gaveUp = { kind: 'trouble', message };
      setPhase(gaveUp);
    },
  };
}

/** What is, or is to be, open. */
interface Asked {
  readonly given: Given;
  readonly what: string;
}

const askedOf = (opened: Opened | null): Asked | null =>
  opened && { given: opened.inputs, what: opened.inputs.buildings.name };

const fetched = async (given: Given): Promise<Inputs> =>
  typeof given === 'function' ? given() : given;

/** Rejects when the reading is stopped: a fetch that hangs keeps no other opening waiting. */
const whenStopped = (signal: AbortSignal): Promise<never> =>
  new Promise((_, reject) => signal.addEventListener('abort', () => reject(signal.reason)));

const isEngineStopped = (error: unknown): boolean =>
  error instanceof Error && error.name === 'EngineStopped';

/** Errors lose their class on the way out of a worker, so a refusal is known by its name. */
function phaseOf(error: unknown): Phase {
  if (!(error instanceof Error)) return { kind: 'trouble', message: String(error) };
  if (error.name !== 'Refusal') return { kind: 'trouble', message: error.message };
  const file = 'file' in error ? String(error.file) : '';
  return { kind: 'refused', file, message: error.message };
}
