import { batch, createSignal } from 'solid-js';
import type { Analyst, Effect, Frame, Inputs, ReadReport } from '../../analysis/session-types.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';

/** What the page is doing with files. A refusal leaves what was open before as it was. */
type Phase =
  | { readonly kind: 'opening'; readonly what: string }
  | { readonly kind: 'ready' }
  | { readonly kind: 'refused'; readonly file: string; readonly message: string }
  | { readonly kind: 'trouble'; readonly message: string };

/** What is open now. `version` grows with every opening, so that answers about older files are told apart. */
export interface Opened {
  readonly version: number;
  readonly report: ReadReport;
  readonly frame: Frame;
}

export interface Session {
  readonly analyst: Analyst;
  readonly phase: () => Phase;
  readonly opened: () => Opened | null;
  /** Resolves to true where the files are open, false where they were refused or the engine stopped. */
  readonly open: (inputs: Inputs, what: string) => Promise<boolean>;
  /** The settings in use, as differences from what ships; they last until the page is closed. */
  readonly changes: () => SettingsChanges;
  /** What the last change of settings moved; null before any. */
  readonly effect: () => Effect | null;
  /** Scores again under these settings, one run at a time; of those that wait only the newest is run. */
  readonly rescore: (changes: SettingsChanges) => Promise<void>;
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
  const inTurn = createTurns();
  let version = 0;
  let asked = 0;

  const read = async (inputs: Inputs): Promise<boolean> => {
    try {
      const report = await analyst.open(inputs);
      const frame = await analyst.frame();
      version += 1;
      batch(() => {
        setOpened({ version, report, frame });
        setEffect(null);
        setPhase({ kind: 'ready' });
      });
      return true;
    } catch (error) {
      setPhase(phaseOf(error));
      return false;
    }
  };
  const open = (inputs: Inputs, what: string): Promise<boolean> => {
    setPhase({ kind: 'opening', what });
    return inTurn(() => read(inputs));
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
        setOpened({ version, report: before.report, frame });
      });
    } catch (error) {
      setPhase(phaseOf(error));
    }
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
    analyst,
    phase,
    opened,
    open,
    trouble: (message) => setPhase({ kind: 'trouble', message }),
  };
}

/**
 * Work that rebuilds the engine's tables is done in turn: two runs at once would mix their tables.
 * A failure ends its own turn only.
 */
function createTurns(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const mine = last.then(work);
    last = mine.catch(() => {});
    return mine;
  };
}

/** Errors lose their class on the way out of a worker, so a refusal is known by its name. */
function phaseOf(error: unknown): Phase {
  if (!(error instanceof Error)) return { kind: 'trouble', message: String(error) };
  if (error.name !== 'Refusal') return { kind: 'trouble', message: error.message };
  const file = 'file' in error ? String(error.file) : '';
  return { kind: 'refused', file, message: error.message };
}
