import { appError } from '../../../shared/api/errors.ts';
import {
  type Facet,
  facetName,
  type Hit,
  type PageHit,
  type RollHit,
} from '../../../shared/api/methods/search-methods.ts';
import type { Place } from '../../../shared/api/values.ts';
import { parsePartialDate } from '../../../shared/domain/date/partial-date.ts';
import { describeReason } from '../../../shared/text/describe-reason.ts';
import { type Command, type Invocation, type Options, UsageError } from '../command.ts';
import { cameraByName, readAddress, stockByName } from '../names.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

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

function rollKeys({ roll, title, stock, camera, state, frames }: RollHit) {
  return { roll, title, stock: stock?.name ?? null, camera: camera?.name ?? null, state, frames };
}

function pageKeys({ binder, page, frames, rolls }: PageHit) {
  return { binder, page, frames, rolls };
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

function readShownAs(options: Options): 'frames' | 'rolls' | 'pages' {
  const shown = options.text('as') ?? 'frames';
  if (shown === 'frames' || shown === 'rolls' || shown === 'pages') return shown;
  throw new UsageError(`--as takes frames, rolls or pages, not “${shown}”.`);
}

/** A date typed behind an option, as one end of a range. @throws {AppError} value_not_valid */
function readDay(typed: string, option: string): string {
  const read = parsePartialDate(typed);
  if (read.ok) return `"${typed.replaceAll('"', '')}"`;
  throw appError('value_not_valid', { field: option, value: typed, reason: describeReason(read.reason) });
}

/** The search of the words and options together. @throws {AppError} for a camera or stock that is not there */
async function queryOf({ ask, options, positionals }: Invocation): Promise<string> {
  const camera = options.text('camera');
  const stock = options.text('stock');
  const from = options.text('from');
  const to = options.text('to');
  if (camera !== undefined) await cameraByName(ask, camera);
  if (stock !== undefined) await stockByName(ask, stock);
  const terms = [
    ...(camera === undefined ? [] : [`camera:"${camera.replaceAll('"', ' ')}"`]),
    ...(stock === undefined ? [] : [`stock:"${stock.replaceAll('"', ' ')}"`]),
    ...(from === undefined ? [] : [`date:${readDay(from, 'from')}..`]),
    ...(to === undefined ? [] : [`date:..${readDay(to, 'to')}`]),
  ];
  const words = positionals.join(' ').trim();
  return terms.length === 0 || words === '' ? [words, ...terms].join(' ') : `(${words}) ${terms.join(' ')}`;
}

function rollInWords(roll: RollHit): string {
  return [
    roll.roll,
    roll.title ?? '',
    roll.stock?.name ?? 'stock not noted',
    roll.camera?.name ?? 'camera not noted',
    roll.state,
    countFrames(roll.frames),
  ].join(' · ');
}

function pageInWords(page: PageHit): string {
  return `${page.binder}, page ${page.page} · ${page.rolls.join(', ')} · ${countFrames(page.frames)}`;
}

function countFrames(frames: number): string {
  return frames === 1 ? '1 frame' : `${frames} frames`;
}

function facetKeys(facets: readonly Facet[]) {
  return Object.fromEntries(
    facets.map(({ facet, values }) => [facet, values.map(({ label, frames }) => ({ value: label, frames }))]),
  );
}

function facetsInWords(facets: readonly Facet[]): string[] {
  return facets
    .filter(({ values }) => values.length > 0)
    .map(({ facet, values, more }) => {
      const shown = values.slice(0, 12).map(({ label, frames }) => `${label} (${frames})`);
      const left = more + values.length - shown.length;
      return `${facet}: ${shown.join(', ')}${left > 0 ? `, … and ${left} more` : ''}`;
    });
}

const FIND: Command = {
  name: 'find',
  usage: 'QUERY [--as frames|rolls|pages] [--facets] [--camera N] [--stock N] [--from D] [--to D]',
  summary: 'find by words and fields: harbour or boat, stock:"Slow 25", iso:100..400, not has:scan',
  options: { camera: text, stock: text, from: text, to: text, limit: text, as: text, facets: flag },
  takes: [0, 100],
  opensArchive: true,
  run: async (invocation) => {
    const { ask, options } = invocation;
    const shownAs = readShownAs(options);
    const wantsFacets = options.flag('facets');
    const found = await ask('search.find', {
      query: await queryOf(invocation),
      shownAs,
      facets: wantsFacets ? facetName.options : [],
      limit: options.number('limit') ?? 200,
    });
    const { total, frames, hits, rolls, pages } = found;
    const lines = [...hits.map(hitInWords), ...rolls.map(rollInWords), ...pages.map(pageInWords)];
    const more = total - lines.length;
    if (total === 0) lines.push('Nothing was found.');
    if (more > 0) lines.push(`… and ${more} more`);
    if (wantsFacets) lines.push(...facetsInWords(found.facets));
    const shown = { frames: hits.map(hitKeys), rolls: rolls.map(rollKeys), pages: pages.map(pageKeys) };
    return {
      json: {
        total,
        as: shownAs,
        frames,
        hits: shown[shownAs],
        ...(wantsFacets ? { facets: facetKeys(found.facets) } : {}),
      },
      lines,
    };
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
