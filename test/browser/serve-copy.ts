import { preview } from 'vite';

/** Serves a folder of a built page as `npm start` does, on a port of its own, until it is closed. */
export async function serveCopy(
  folder: string,
): Promise<{ readonly origin: string; readonly close: () => Promise<void> }> {
  const server = await preview({
    build: { outDir: folder },
    preview: { port: 4373, strictPort: false },
    logLevel: 'error',
  });
  let closed = false;
  return {
    origin: server.resolvedUrls!.local[0]!.replace(/\/$/, ''),
    close: async () => {
      if (!closed) await server.close();
      closed = true;
    },
  };
}
