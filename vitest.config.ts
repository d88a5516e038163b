import { defineConfig } from 'vitest/config';

const quiet = { reporters: ['default'], testTimeout: 30_000, hookTimeout: 240_000 };

export default defineConfig({
  test: {
    ...quiet,
    projects: [
      {
        test: {
          ...quiet,
          name: 'unit',
          include: ['test/**/*.test.ts'],
          exclude: ['test/browser/**', 'test/bench/**', 'test/slow/**'],
        },
      },
      {
        test: {
          ...quiet,
          name: 'slow',
          include: ['test/slow/**/*.test.ts'],
          testTimeout: 600_000,
        },
      },
      {
        test: {
          ...quiet,
          name: 'page',
          include: ['test/browser/**/*.test.ts'],
          testTimeout: 120_000,
          expect: { poll: { timeout: 15_000 } },
          fileParallelism: false,
          globalSetup: ['test/browser/serve.ts'],
        },
      },
    ],
  },
});
