import { defineConfig } from 'vite';
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

export default defineConfig({
  root: 'dashboard',
  base: './',
  plugins: [solid()],
  worker: { format: 'es' },
  build: {
    outDir: '../dist/page',
    emptyOutDir: true,
    target: 'es2023',
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 2000,
  },
  preview: { host: '127.0.0.1', port: 4173, headers },
});
