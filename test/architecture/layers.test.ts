import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const top = fileURLToPath(new URL('../..', import.meta.url));

/** Row: files whose path starts so. May import: project folders and packages that start so. First match counts. */
const RULES: readonly { readonly from: string; readonly may: readonly string[] }[] = [
  { from: 'shared/units', may: ['shared/units'] },
  { from: 'shared/domain', may: ['shared/domain', 'shared/units'] },
  { from: 'shared/sheet', may: ['shared/sheet', 'shared/domain', 'shared/units', 'zod'] },
  { from: 'shared', may: ['shared', 'zod'] },
  {
    from: 'main/engine',
    may: ['shared', 'main/engine', 'node:', 'better-sqlite3', 'sharp', 'exifr', 'pdfkit', 'fontkit', 'zod'],
  },
  { from: 'main/engine-entry.ts', may: ['shared', 'main/engine', 'main/transport', 'node:'] },
  { from: 'main/transport', may: ['shared/api', 'node:', 'ws', 'electron'] },
  { from: 'main/start.ts', may: ['node:'] },
  { from: 'main/host', may: ['shared', 'main/host', 'node:'] },
  {
    from: 'main/desktop',
    may: ['shared', 'main/desktop', 'main/host', 'main/transport', 'node:', 'electron'],
  },
  {
    from: 'main/web',
    may: ['shared', 'main/web', 'main/host', 'main/engine', 'main/transport', 'node:', 'ws'],
  },
  { from: 'main/cli', may: ['shared', 'main/cli', 'main/engine', 'node:', 'zod'] },
  {
    from: 'renderer/ui',
    may: [
      'renderer/ui',
      'renderer/styles',
      'shared/text',
      'shared/units',
      'react',
      '@tanstack/react-virtual',
    ],
  },
  {
    from: 'renderer',
    may: ['shared', 'renderer', 'react', 'react-dom', '@tanstack/', '@fontsource-variable/', 'zod'],
  },
];

/** Folders of the renderer that any view may use; a view may not import another view. */
const RENDERER_COMMON = ['api', 'state', 'ui', 'transport', 'styles', 'film'];

function sourceFiles(folder: string): string[] {
  return readdirSync(join(top, folder)).flatMap((name) => {
    const path = `${folder}/${name}`;
    if (statSync(join(top, path)).isDirectory()) return sourceFiles(path);
    return /\.tsx?$/.test(name) && !name.endsWith('.config.ts') ? [path] : [];
  });
}

function importsOf(file: string): string[] {
  const text = readFileSync(join(top, file), 'utf8');
  const found = text.matchAll(
    /(?:^|\n)\s*(?:import|export)\s[^;'"]*?from\s*['"]([^'"]+)['"]|import\s*\(?\s*['"]([^'"]+)['"]/g,
  );
  return [...found].map((match) => {
    const name = match[1] ?? match[2] ?? '';
    return name.startsWith('.') ? relative(top, resolve(top, dirname(file), name)) : name;
  });
}

function startsWithFolder(name: string, start: string): boolean {
  return name === start || name.startsWith(start.endsWith(':') || start.endsWith('/') ? start : `${start}/`);
}

describe('import layers', () => {
  const files = ['shared', 'main', 'renderer'].flatMap(sourceFiles);

  it('sees the source files', () => {
    expect(files.length).toBeGreaterThan(3);
  });

  it('lets every file import only what its folder may', () => {
    const broken = files.flatMap((file) => {
      const rule = RULES.find((row) => startsWithFolder(file, row.from));
      if (!rule) return [`${file}: no rule for its folder`];
      return importsOf(file)
        .filter((name) => !rule.may.some((start) => startsWithFolder(name, start)))
        .map((name) => `${file} imports ${name}`);
    });
    expect(broken).toEqual([]);
  });

  it('keeps the views of the window apart', () => {
    const view = (path: string) => /^renderer\/([^/]+)\//.exec(path)?.[1];
    const broken = files
      .filter(
        (file) => file.startsWith('renderer/') && view(file) && !RENDERER_COMMON.includes(view(file) ?? ''),
      )
      .flatMap((file) =>
        importsOf(file)
          .filter((name) => name.startsWith('renderer/') && view(name) !== undefined)
          .filter((name) => view(name) !== view(file) && !RENDERER_COMMON.includes(view(name) ?? ''))
          .map((name) => `${file} imports ${name}`),
      );
    expect(broken).toEqual([]);
  });

  it('leaves no unfinished business in the code', () => {
    const marks = /\b(TODO|FIXME|XXX)\b|\.(skip|only)\(|@ts-(ignore|expect-error|nocheck)/;
    const tests = sourceFiles('test').filter((file) => file !== 'test/architecture/layers.test.ts');
    const left = [...files, ...tests].filter((file) => marks.test(readFileSync(join(top, file), 'utf8')));
    expect(left).toEqual([]);
  });
});
