import { builtinModules } from 'node:module';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

// The shell as two CommonJS files: a sandboxed preload can load nothing else, and an older Electron no modules.
export default defineConfig({
  root: here('.'),
  ssr: { noExternal: true },
  build: {
    ssr: true,
    outDir: here('../../dist/desktop'),
    emptyOutDir: true,
    // Electron 25 has Node 18.
    target: 'node18',
    minify: false,
    rollupOptions: {
      input: { main: here('main.ts'), preload: here('preload.ts') },
      external: ['electron', ...builtinModules, ...builtinModules.map((name) => `node:${name}`)],
      output: { format: 'cjs', entryFileNames: '[name].cjs' },
    },
  },
});
