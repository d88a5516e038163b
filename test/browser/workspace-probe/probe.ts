import type { Connected } from '../../../dashboard/client/connect.ts';
import { openStoreAt, parts } from './parts.ts';

/** The page's storage, and the way to its analyst, bare, for tests in a real browser. */
declare global {
  interface Window {
    kept: typeof parts;
    connect: () => Promise<Connected>;
    demo: () => Promise<Parameters<Connected['open']>[0]>;
    /** What the tests leave in the page from one evaluation to the next. */
    store: ReturnType<typeof openStoreAt>;
    keeper: ReturnType<(typeof parts)['createKeeper']>;
    heard: unknown[];
    analyst: Connected;
  }
}

window.kept = parts;
window.heard = [];
window.store = openStoreAt('rainledger');
window.keeper = parts.createKeeper(window.store, {
  quiet: 50,
  onStatus: (status) => window.heard.push(status),
});
parts.keepOnLeaving(window.keeper);
window.connect = async () =>
  (await import('../../../dashboard/client/connect.ts')).connectAnalyst();
window.demo = async () => (await import('../../../dashboard/client/demo.ts')).demoInputs();
