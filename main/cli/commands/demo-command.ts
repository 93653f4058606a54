import { makeSample } from '../../engine/sample/make-sample.ts';
import type { Command } from '../command.ts';

export const DEMO_COMMANDS: readonly Command[] = [
  {
    name: 'demo',
    usage: 'DIR',
    summary: 'make a sample archive in DIR, with scans, filing and sheets',
    options: {},
    takes: [1, 1],
    opensArchive: false,
    run: async ({ engine, positionals, tell }) => {
      const sample = await makeSample(engine, positionals[0] ?? '', tell);
      const lines = [
        `A sample archive is in ${sample.archive}`,
        `Its scans:  ${sample.scans}`,
        'Its sheets, to print at 100 %:',
        ...sample.sheets.map((sheet) => `  ${sheet}`),
        '',
        'Ask it something:',
        `  npm run -s edgeprint -- find harbour --archive ${sample.archive}`,
        `  npm run -s edgeprint -- where 2026-001/12 --archive ${sample.archive}`,
      ];
      return { json: sample, lines };
    },
  },
];
