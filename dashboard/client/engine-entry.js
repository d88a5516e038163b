/*
 * Entry of the engine's thread: a classic script, since duckdb-wasm's worker is one. It holds a Web Lock named by the
 * worker's name for as long as the thread lives, then becomes that worker (its address ends the name, after a space).
 * Whoever is granted the same lock afterwards knows that the thread is gone, even when it ended without a word.
 */
const { name, navigator } = self;

// The handler must stand before the first message is let in: the script is loaded in this same turn.
importScripts(name.split(' ').at(-1));

if (navigator.locks) {
  navigator.locks.request(name, () => {
    self.postMessage({ held: true });
    return new Promise(() => {});
  });
} else {
  self.postMessage({ held: false });
}
