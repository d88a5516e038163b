import { join } from 'node:path';
import { build, preview } from 'vite';
import page from '../../../vite.config.ts';

/** Builds and serves the bare storage page, under the same policy as the page itself. */
export async function serveWorkspaceProbe(): Promise<{
  origin: string;
  close: () => Promise<void>;
}> {
  const root = join(process.cwd(), 'test/browser/workspace-probe');
  const outDir = join(process.cwd(), '.cache/workspace-probe');
  const common = {
    configFile: false as const,
    root,
    logLevel: 'error' as const,
    worker: { format: 'es' as const },
    build: { outDir, emptyOutDir: true, assetsInlineLimit: 0, target: 'es2023' },
  };
  await build(common);
  const headers = page.preview!.headers!;
  const server = await preview({ ...common, preview: { host: '127.0.0.1', port: 4383, headers } });
  return { origin: server.resolvedUrls!.local[0]!, close: () => server.close() };
}
