import { batch, createSignal } from 'solid-js';
import type { Analyst, Frame, Inputs, ReadReport } from '../../analysis/session-types.ts';

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
  readonly trouble: (message: string) => void;
}

export function createSession(analyst: Analyst): Session {
  const [phase, setPhase] = createSignal<Phase>({ kind: 'opening', what: 'the invented example' });
  const [opened, setOpened] = createSignal<Opened | null>(null);
  let version = 0;

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
  return {
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
