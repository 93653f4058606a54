import type { Hit } from '../../../shared/api/methods/search-methods.ts';
import type { Place } from '../../../shared/api/values.ts';
import type { Command } from '../command.ts';
import { cameraByName, readAddress, stockByName } from '../names.ts';

const text = { type: 'string' } as const;

/** Where film lies, in words. */
function placeInWords(lies: Place | null): string {
  return lies
    ? `${lies.binder}, page ${lies.page}, row ${lies.row}, position ${lies.position}`
    : 'not filed yet';
}

function placeKeys(lies: Place | null) {
  return {
    binder: lies?.binder ?? null,
    page: lies?.page ?? null,
    row: lies?.row ?? null,
    position: lies?.position ?? null,
  };
}

/** A hit as scripts read it. */
function hitKeys(hit: Hit) {
  return {
    roll: hit.roll,
    frame: hit.frame,
    caption: hit.caption,
    ...placeKeys(hit.lies),
    outing: hit.outing,
    development: hit.development,
  };
}

function hitInWords(hit: Hit): string {
  const outing = hit.outing
    ? `${hit.outing.title}${hit.outing.date ? ` (${hit.outing.date})` : ''}`
    : 'no outing noted';
  const development = hit.development
    ? `developed ${hit.development.date ?? 'on an unknown day'} (${hit.development.process})`
    : 'no development noted';
  return [`${hit.roll}/${hit.frame}`, hit.caption ?? '', placeInWords(hit.lies), outing, development].join(
    ' · ',
  );
}

const FIND: Command = {
  name: 'find',
  usage: 'WORDS [--camera N] [--stock N] [--from D] [--to D]',
  summary: 'find frames by words',
  options: { camera: text, stock: text, from: text, to: text, limit: text },
  takes: [0, 100],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const camera = options.text('camera');
    const stock = options.text('stock');
    const found = await ask('search.frames', {
      words: positionals.join(' '),
      cameraId: camera === undefined ? undefined : await cameraByName(ask, camera),
      stockId: stock === undefined ? undefined : await stockByName(ask, stock),
      from: options.text('from'),
      to: options.text('to'),
      limit: options.number('limit') ?? 200,
    });
    const lines = found.hits.map(hitInWords);
    const more = found.total - found.hits.length;
    if (found.total === 0) lines.push('Nothing was found.');
    if (more > 0) lines.push(`… and ${more} more`);
    return { json: { total: found.total, hits: found.hits.map(hitKeys) }, lines };
  },
};

const WHERE: Command = {
  name: 'where',
  usage: 'FRAME|ROLL',
  summary: 'binder, page, row, position, outing, development of 2026-001/12A or 2026-001',
  options: {},
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, positionals }) => {
    const { roll, rollId, frame } = await readAddress(ask, positionals[0] ?? '');
    if (frame !== null) {
      const { id } = await ask('frames.byLabel', { roll, label: frame });
      const where = await ask('frames.where', { frameId: id });
      const { outing, development, lies } = where;
      const json = { roll, frame: where.frame, ...placeKeys(lies), outing, development };
      const lines = [
        `${roll}/${where.frame}: ${placeInWords(lies)}`,
        outing ? `Outing: ${outing.title}${outing.date ? `, ${outing.date}` : ''}` : 'Outing: not noted',
        development
          ? `Development: ${development.process}, ${development.date ?? 'day unknown'}`
          : 'Development: not noted',
      ];
      return { json, lines };
    }
    const facts = await ask('rolls.get', { id: rollId });
    const frames = await ask('frames.ofRoll', { rollId });
    const first = frames.find((each) => each.lies)?.lies ?? null;
    const outing = facts.outings.length === 1 ? facts.outings[0] : null;
    const development = facts.developments.at(-1) ?? null;
    const json = {
      roll,
      frame: null,
      ...placeKeys(first),
      pages: facts.pages,
      outing: outing
        ? { id: outing.id, title: outing.title, date: outing.date?.edtf ?? null, place: outing.place }
        : null,
      outings: facts.outings,
      development: development
        ? { id: development.id, process: development.process, date: development.date?.edtf ?? null }
        : null,
    };
    const pages = facts.pages.map((page) => `${page.binder}, page ${page.page}`);
    const lines = [
      `${roll}: ${pages.length > 0 ? pages.join('; ') : 'not filed yet'}`,
      `Outings: ${facts.outings.map((each) => each.title).join(', ') || 'none noted'}`,
      `Developments: ${facts.developments.map((each) => each.date?.edtf ?? 'day unknown').join(', ') || 'none noted'}`,
    ];
    return { json, lines };
  },
};

export const FIND_COMMANDS: readonly Command[] = [WHERE, FIND];
