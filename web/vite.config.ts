import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

// The built files go into the program (cmake/Embed.cmake), which serves them from memory.
export default defineConfig({
  plugins: [svelte({ compilerOptions: { css: 'external' } })],
  base: './',
  build: {
    outDir: process.env.WILDLING_PAGE_OUT ?? '../build/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0, // nothing as data: in scripts and styles; the page's policy allows own files only
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1200,
    sourcemap: false,
    reportCompressedSize: false,
  },
  worker: { format: 'es' },
  server: { proxy: { '/api': `http://127.0.0.1:${process.env.WILDLING_DESK ?? '8737'}` } },
  // Svelte's own export condition, so that tests mount the browser build.
  ...(process.env.VITEST ? { resolve: { conditions: ['browser'] } } : {}),
  // A whole catalogue is read in one test: slow on a busy machine.
  test: { include: ['test/**/*.test.ts', 'src/**/*.test.ts'], testTimeout: 60_000 },
} as Parameters<typeof defineConfig>[0]);
