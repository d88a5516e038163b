import { join } from 'node:path';
import { build, preview } from 'vite';
import solid from 'vite-plugin-solid';

/** Builds and serves the map alone, over made-up buildings, for the bench. */
export async function serveMapProbe(
  port = 4374,
): Promise<{ origin: string; close: () => Promise<void> }> {
  const common = {
    configFile: false as const,
    root: join(process.cwd(), 'test/bench/map-probe'),
    logLevel: 'error' as const,
    plugins: [solid()],
    worker: { format: 'es' as const },
    build: {
      outDir: join(process.cwd(), '.cache/map-probe'),
      emptyOutDir: true,
      target: 'es2023',
      assetsInlineLimit: 0,
    },
  };
  await build(common);
  const server = await preview({ ...common, preview: { host: '127.0.0.1', port } });
  return { origin: server.resolvedUrls!.local[0]!, close: () => server.close() };
}
