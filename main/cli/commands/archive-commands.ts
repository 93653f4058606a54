import type { Command } from '../command.ts';

export const ARCHIVE_COMMANDS: readonly Command[] = [
  {
    name: 'init',
    usage: '',
    summary: 'make an empty archive in --archive',
    options: {},
    takes: [0, 0],
    opensArchive: false,
    run: async ({ ask, archive }) => {
      const state = await ask('archive.create', { folder: archive() });
      return {
        json: { folder: state.folder, identity: state.identity },
        lines: [`An empty archive is in ${state.folder}.`],
      };
    },
  },
  {
    name: 'status',
    usage: '',
    summary: 'what is in the archive',
    options: {},
    takes: [0, 0],
    opensArchive: true,
    run: async ({ ask }) => {
      const state = await ask('archive.state', {});
      const { rolls = 0, frames = 0, scans = 0, binders = 0 } = state ?? {};
      return { json: state, lines: [`${rolls} rolls, ${frames} frames, ${scans} scans, ${binders} binders`] };
    },
  },
  {
    name: 'check',
    usage: '',
    summary: 'check that the archive is whole',
    options: {},
    takes: [0, 0],
    opensArchive: true,
    run: async ({ ask }) => {
      const checked = await ask('archive.check', {});
      return { json: checked, lines: checked.sound ? ['The archive is whole.'] : checked.findings };
    },
  },
  {
    name: 'back-up',
    usage: 'FILE',
    summary: 'write a checked copy of the archive to FILE',
    options: {},
    takes: [1, 1],
    opensArchive: true,
    run: async ({ ask, positionals }) => {
      const file = positionals[0] ?? '';
      const written = await ask('archive.backUp', { file });
      return { json: { file, ...written }, lines: [`${file}: ${written.sizeBytes} bytes, checked.`] };
    },
  },
  {
    name: 'undo',
    usage: '',
    summary: 'take the last change back',
    options: {},
    takes: [0, 0],
    opensArchive: true,
    run: async ({ ask }) => {
      const { label } = await ask('archive.undo', {});
      return {
        json: { label },
        lines: [label === null ? 'There is nothing to take back.' : `Taken back: ${label}`],
      };
    },
  },
  {
    name: 'redo',
    usage: '',
    summary: 'make the change taken back again',
    options: {},
    takes: [0, 0],
    opensArchive: true,
    run: async ({ ask }) => {
      const { label } = await ask('archive.redo', {});
      return {
        json: { label },
        lines: [label === null ? 'There is nothing to make again.' : `Made again: ${label}`],
      };
    },
  },
];
