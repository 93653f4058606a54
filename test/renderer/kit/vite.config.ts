import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  base: './',
  plugins: [react()],
  logLevel: 'warn',
  build: { target: 'chrome114', assetsInlineLimit: 0, chunkSizeWarningLimit: 4000 },
});
