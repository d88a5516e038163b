/** Saves after a short quiet time, one save at a time, the newest state always last. */
export interface Saver {
  /** There is something to save. */
  readonly mark: () => void;
  /** Saves now what waits; settles when all is saved, or when a save was refused. */
  readonly flush: () => Promise<void>;
  /** Something waits to be saved. */
  readonly waiting: () => boolean;
  /** A save is under way. */
  readonly busy: () => boolean;
  /** Drops what waits. */
  readonly stop: () => void;
}

export interface Pace {
  /** Milliseconds without a change before a save. */
  readonly quiet: number;
  /** Milliseconds after which a save is made though changes go on. */
  readonly longest: number;
}

/** `save` takes the state as it is when called and says whether it was kept; a refused one stays waiting. */
export function createSaver(save: () => Promise<boolean>, { quiet, longest }: Pace): Saver {
  let dirty = false;
  let since: number | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> | null = null;

  const run = async (): Promise<void> => {
    while (dirty) {
      dirty = false;
      since = null;
      if (await save()) continue;
      dirty = true;
      return;
    }
  };
  const flush = (): Promise<void> => {
    clearTimeout(timer);
    running ??= run().finally(() => {
      running = null;
    });
    return running;
  };
  return {
    mark: () => {
      dirty = true;
      since ??= performance.now();
      clearTimeout(timer);
      const left = since + longest - performance.now();
      timer = setTimeout(flush, Math.max(0, Math.min(quiet, left)));
    },
    flush,
    waiting: () => dirty,
    busy: () => running !== null,
    stop: () => {
      clearTimeout(timer);
      dirty = false;
    },
  };
}
