import { defineConfig } from 'vite';

/** Bundles the command line and the asset builder for Node: SQL and tables of data/ become strings inside. */
export default defineConfig({
  build: {
    outDir: 'dist/cli',
    emptyOutDir: true,
    target: 'node20',
    ssr: true,
    rolldownOptions: {
      input: {
        rainledger: 'analysis/cli/rainledger.ts',
        assets: 'data/build.ts',
        bench: 'test/bench/bench.ts',
      },
      output: { entryFileNames: '[name].mjs', chunkFileNames: '[name].mjs' },
    },
  },
});
