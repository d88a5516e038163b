import { preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { chromiumPath } from './chromium.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Origin of the built page. */
    origin: string;
  }
}

/** Serves the built page (dist/page) for the browser tests, with the headers it has in use. */
export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  chromiumPath();
  const server = await preview({ preview: { port: 4273, strictPort: false }, logLevel: 'error' });
  project.provide('origin', server.resolvedUrls!.local[0]!.replace(/\/$/, ''));
  return () => server.close();
}
