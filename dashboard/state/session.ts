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
  /** Scores again under these settings; of several asked for in a row only the newest is kept. */
  readonly rescore: (changes: SettingsChanges) => Promise<void>;
  readonly trouble: (message: string) => void;
}

export function createSession(analyst: Analyst): Session {
  const [phase, setPhase] = createSignal<Phase>({ kind: 'opening', what: 'the invented example' });
  const [opened, setOpened] = createSignal<Opened | null>(null);
  const [changes, setChanges] = createSignal<SettingsChanges>({});
  const [effect, setEffect] = createSignal<Effect | null>(null);
  let version = 0;
  let asked = 0;

  const open = async (inputs: Inputs, what: string): Promise<boolean> => {
    setPhase({ kind: 'opening', what });
    try {
      const report = await analyst.open(inputs);
      const frame = await analyst.frame();
      version += 1;
      batch(() => {
        setOpened({ version, report, frame });
        setPhase({ kind: 'ready' });
      });
      return true;
    } catch (error) {
      setPhase(phaseOf(error));
      return false;
    }
  };
  const rescore = async (wanted: SettingsChanges): Promise<void> => {
    asked += 1;
    const mine = asked;
    setChanges(wanted);
    try {
      const moved = await analyst.rescore(wanted);
      if (mine !== asked) return;
      const frame = await analyst.frame();
      const before = opened();
      if (mine !== asked || !before) return;
      version += 1;
      batch(() => {
        setEffect(moved);
        setOpened({ version, report: before.report, frame });
      });
    } catch (error) {
      setPhase(phaseOf(error));
    }
  };
  return {
    changes,
    effect,
    rescore,
    analyst,
    phase,
    opened,
    open,
    trouble: (message) => setPhase({ kind: 'trouble', message }),
  };
}

/** Errors lose their class on the way out of a worker, so a refusal is known by its name. */
function phaseOf(error: unknown): Phase {
  if (!(error instanceof Error)) return { kind: 'trouble', message: String(error) };
  if (error.name !== 'Refusal') return { kind: 'trouble', message: error.message };
  const file = 'file' in error ? String(error.file) : '';
  return { kind: 'refused', file, message: error.message };
}
