import { join } from 'node:path';
import { build, preview } from 'vite';

/** Builds and serves the bare engine page; for the tests of the engine, and as the bench's baseline. */
export async function serveProbe(): Promise<{ origin: string; close: () => Promise<void> }> {
  const root = join(process.cwd(), 'test/browser/probe');
  const outDir = join(process.cwd(), '.cache/probe');
  const common = {
    configFile: false as const,
    root,
    logLevel: 'error' as const,
    build: { outDir, emptyOutDir: true },
  };
  await build(common);
  const server = await preview({ ...common, preview: { host: '127.0.0.1', port: 4373 } });
  return { origin: server.resolvedUrls!.local[0]!, close: () => server.close() };
}
