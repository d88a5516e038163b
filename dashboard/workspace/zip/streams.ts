import { pieces } from '../digest.ts';

type Bytes = Uint8Array<ArrayBuffer>;

/** A blob as a stream of pieces so small that the page draws between two; its own stream gives pieces of any size. */
export function piecewise(blob: Blob): ReadableStream<Bytes> {
  const source = pieces(blob);
  return new ReadableStream({
    pull: async (out) => {
      const { done, value } = await source.next();
      if (done) out.close();
      else out.enqueue(value);
    },
    cancel: () => void source.return(undefined),
  });
}

/** Milliseconds of work after which the page gets a turn: pieces that are ready arrive without one. */
const TURN = 30;

/** Hands on every piece of a stream; ends the stream where `take` throws. */
export async function drain(
  stream: ReadableStream<Bytes>,
  take: (piece: Bytes) => Promise<void> | void,
): Promise<void> {
  const reader = stream.getReader();
  let since = performance.now();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      await take(value);
      if (performance.now() - since < TURN) continue;
      await new Promise((resolve) => setTimeout(resolve));
      since = performance.now();
    }
  } catch (cause) {
    await reader.cancel(cause).catch(() => {});
    throw cause;
  }
}

/** Lets bytes through and shows them on their way. */
export const watched = (see: (piece: Bytes) => void): TransformStream<Bytes, Bytes> =>
  new TransformStream({
    transform: (piece, out) => {
      see(piece);
      out.enqueue(piece);
    },
  });
