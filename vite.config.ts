import { readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import solid from 'vite-plugin-solid';

/** The page asks nobody but its own origin; the browser enforces it on every response. */
const policy = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

const headers = {
  'Content-Security-Policy': policy,
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

/** Keeps every file of the page on the device after the first visit, so that it opens without a network. */
const offline = VitePWA({
  strategies: 'generateSW',
  // Registered by dashboard/offline once the page is at rest, and renewed only when the reader says so.
  injectRegister: null,
  registerType: 'prompt',
  includeManifestIcons: false,
  manifest: {
    name: 'Rainledger',
    short_name: 'Rainledger',
    description:
      'Ranks buildings for wind-driven rain on walls with no drainage behind the cladding. Screening, not diagnosis.',
    lang: 'en',
    id: './',
    start_url: './',
    scope: './',
    display: 'standalone',
    theme_color: '#f7f7f2',
    background_color: '#f7f7f2',
    icons: [192, 512].flatMap((size) =>
      (['any', 'maskable'] as const).map((purpose) => ({
        src: `./${purpose === 'any' ? 'icon' : 'icon-full'}-${size}.png`,
        sizes: `${size}x${size}`,
        type: 'image/png',
        purpose,
      })),
    ),
  },
  workbox: {
    globPatterns: ['**/*'],
    globIgnores: ['sw.js', 'workbox-*.js'],
    // The engine alone is 34 MB.
    maximumFileSizeToCacheInBytes: 40 * 1024 * 1024,
    // The first visit is served from the device as soon as all is there, without a reload.
    clientsClaim: true,
    cleanupOutdatedCaches: true,
    inlineWorkboxRuntime: true,
    navigateFallback: null,
    // Whatever stands after the `?`, it is the same page.
    ignoreURLParametersMatching: [/./],
  },
});

/** What lies in which chunk, in bytes by package (`own` is ours). */
interface Chunk {
  readonly imports: readonly string[];
  readonly dynamicImports: readonly string[];
  readonly packages: Readonly<Record<string, number>>;
}
const chunks: Record<string, Chunk> = {};

const packageOf = (id: string): string =>
  /.*node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(id)?.[1] ?? 'own';

/** Notes what lies in each chunk, the workers' included; written beside the page, where no server looks, for test/repo. */
const contents = (of: 'page' | 'worker'): Plugin => ({
  name: 'contents',
  generateBundle: {
    // When the page's own entry, which only names what it needs, has gone.
    order: 'post',
    handler(_, bundle) {
      for (const chunk of Object.values(bundle)) {
        if (chunk.type !== 'chunk') continue;
        const packages: Record<string, number> = {};
        for (const [id, { renderedLength }] of Object.entries(chunk.modules)) {
          const name = packageOf(id);
          packages[name] = (packages[name] ?? 0) + renderedLength;
        }
        const { imports, dynamicImports } = chunk;
        chunks[chunk.fileName] = { imports, dynamicImports, packages };
      }
      // Workers are bundled before the page that starts them.
      if (of === 'worker') return;
      this.emitFile({
        type: 'asset',
        fileName: '.vite/chunks.json',
        source: JSON.stringify(chunks, null, 1),
      });
    },
  },
});

/** Statements without the lines of comment that only their readers need: a third of their size. */
const statements = (): Plugin => ({
  name: 'statements',
  enforce: 'pre',
  load: {
    filter: { id: /\.sql\?raw$/ },
    handler: (id) => {
      const text = readFileSync(id.replace('?raw', ''), 'utf8');
      return `export default ${JSON.stringify(text.replace(/^\s*--.*\n/gm, ''))}`;
    },
  },
});

/** Packages in a file of their own, which changes with them alone. */
const apart = (name: string, packages: string) => ({
  name,
  test: new RegExp(`/node_modules/(?:${packages})/(?!.*\\?)`),
});
const engineClient = apart('engine-client', '@duckdb/duckdb-wasm|apache-arrow|flatbuffers|tslib');
const mapLibrary = apart('maplibre', 'maplibre-gl');

interface Module {
  readonly isEntry: boolean;
  readonly importers: readonly string[];
  readonly dynamicImporters: readonly string[];
  readonly importedIds: readonly string[];
}
interface Graph {
  readonly getModuleInfo: (id: string) => Module | null;
}

/** All that is reached from some modules, themselves among it. */
function reached(from: readonly string[], next: (id: string) => readonly string[]): Set<string> {
  const found = new Set(from);
  for (const id of found) for (const other of next(id)) found.add(other);
  return found;
}

/**
 * What an entry cannot start without lies in a few files, for dozens of small ones pack worse and are asked for one by
 * one. Tables of data/ and libraries lie apart from our own code, whose size has a goal (test/repo/bundle.test.ts). d3 is
 * left to the bundler: its one entry names all of its parts, of which a page needs few.
 */
function neededAtStart() {
  /** By entry, so that the page and each worker have their own. */
  const needed = new Map<string, ReadonlySet<string>>();
  const isNeeded = (id: string, graph: Graph): boolean => {
    const users = (of: string) => {
      const { importers = [], dynamicImporters = [] } = graph.getModuleInfo(of) ?? {};
      return [...importers, ...dynamicImporters];
    };
    return [...reached([id], users)]
      .filter((user) => graph.getModuleInfo(user)?.isEntry)
      .some((entry) => {
        const imports = (of: string) => graph.getModuleInfo(of)?.importedIds ?? [];
        if (!needed.has(entry)) needed.set(entry, reached([entry], imports));
        return needed.get(entry)!.has(id);
      });
  };
  const group = (name: string, test: RegExp) => ({
    name: (id: string, graph: Graph) => (isNeeded(id, graph) ? name : null),
    test,
  });
  return [
    group('tables', /\.csv\?raw$/),
    group('solid', /\/node_modules\/solid-js\//),
    group('papaparse', /\/node_modules\/papaparse\//),
    group('libraries', /\/node_modules\/(?!d3)/),
    group('start', /^(?!.*\/node_modules\/)/),
  ];
}

export default defineConfig({
  root: 'dashboard',
  base: './',
  publicDir: 'offline/icons',
  plugins: [solid(), offline, contents('page')],
  worker: {
    format: 'es',
    plugins: () => [statements(), contents('worker')],
    rolldownOptions: { output: { codeSplitting: { groups: [engineClient, ...neededAtStart()] } } },
  },
  build: {
    outDir: '../dist/page',
    emptyOutDir: true,
    target: 'es2023',
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 2000,
    rolldownOptions: { output: { codeSplitting: { groups: [mapLibrary, ...neededAtStart()] } } },
  },
  preview: { host: '127.0.0.1', port: 4173, headers },
});
