import type { Keeper } from './keeper-types.ts';

/** Keeps what waits when the page is hidden or left. Answers the way to stop listening. */
export function keepOnLeaving(keeper: Pick<Keeper, 'leaving'>): () => void {
  const hidden = () => document.visibilityState === 'hidden' && keeper.leaving();
  document.addEventListener('visibilitychange', hidden);
  window.addEventListener('pagehide', keeper.leaving);
  return () => {
    document.removeEventListener('visibilitychange', hidden);
    window.removeEventListener('pagehide', keeper.leaving);
  };
}
