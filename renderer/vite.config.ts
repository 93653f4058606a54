import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  plugins: [react()],
  build: {
    outDir: fileURLToPath(new URL('../dist/renderer', import.meta.url)),
    emptyOutDir: true,
    // The oldest window this runs in is Electron 25, which is Chromium 114.
    target: 'chrome114',
    // The policy of the page allows no data addresses for fonts or scripts.
    assetsInlineLimit: 0,
    // In kB. It is read from this machine's disk, never over a network.
    chunkSizeWarningLimit: 4000,
  },
});
