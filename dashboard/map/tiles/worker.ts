import { messageOf } from '../../parts/message-of.ts';
import { readLand } from './land-files.ts';
import type { Envelope, Reply } from './messages.ts';
import { SheetTiles } from './sheet-tiles.ts';

const tiles = new SheetTiles(readLand((trouble) => `The ${trouble}.`));

function answer<Result>({ name, request }: Envelope): Result | Promise<Result> {
  const handler = tiles[name] as (request: unknown) => Result | Promise<Result>;
  return handler.call(tiles, request);
}

const reply = (message: Reply, transfer: Transferable[] = []) => postMessage(message, { transfer });

addEventListener('message', async ({ data }: MessageEvent<Envelope>) => {
  try {
    const result = await answer(data);
    reply({ id: data.id, answer: result }, result instanceof ArrayBuffer ? [result] : []);
  } catch (cause) {
    reply({ id: data.id, error: messageOf(cause) });
  }
});
