import type { FrameOrigin } from '../api/methods/origin-methods.ts';
import type { CalendarDate } from '../api/values.ts';
import { formatAperture } from '../domain/exposure/aperture.ts';
import { findAgeAtExposure } from '../domain/exposure/age-at-exposure.ts';
import { formatAddress } from '../domain/filing/page-address.ts';
import { findFilmFormat } from '../domain/film/film-format.ts';
import { findFrameFormat } from '../domain/film/frame-format.ts';
import { formatFrameRange } from '../domain/frame/frame-range.ts';
import { describeDate, describeSpan } from './calendar-words.ts';
import { bathFact, developerFact, developmentFact } from './origin-development.ts';
import { fact, tenths, type OriginFact, type OriginKey } from './origin-fact.ts';

function years(least: number, most: number): string {
  if (most < 1) {
    const months = [least, most].map((each) => Math.max(0, Math.round(each * 12)));
    const [from, to] = [Math.min(...months), Math.max(...months)];
    return from === to ? `${to} ${to === 1 ? 'month' : 'months'}` : `${from} to ${to} months`;
  }
  // A month more or less, as printed on a box, is not said.
  if (most - least < 0.2) return `${tenths((least + most) / 2)} years`;
  return `${tenths(least)} to ${tenths(most)} years`;
}

/** When the frame was made, as far as anything says it: its own date, its outing's, the span of its roll. */
function exposedOf({ frame, outing, roll }: FrameOrigin): Pick<CalendarDate, 'earliest' | 'latest'> | null {
  return frame.taken ?? outing?.date ?? roll.shot;
}

/** How old the film was when it was exposed: `4.8 years past its date when exposed`; null when nothing says it. */
export function describeAge(origin: FrameOrigin): string | null {
  const { expires } = origin.roll;
  const exposed = exposedOf(origin);
  const age = expires === null || exposed === null ? null : findAgeAtExposure(expires, exposed);
  if (age === null) return null;
  const { leastYears, mostYears } = age;
  if (mostYears <= 0) return 'in date when exposed';
  if (leastYears <= 0) return 'about at its date when exposed';
  return `${years(leastYears, mostYears)} past its date when exposed`;
}

function stockFact(origin: FrameOrigin): OriginFact {
  const { roll, batch } = origin;
  const { stock, expires } = roll;
  const name =
    stock === null
      ? null
      : [stock.name, stock.iso === null ? null : `ISO ${stock.iso}`]
          .filter((part) => part !== null)
          .join(', ');
  const stored = batch?.stored.at(-1);
  return fact(
    'stock',
    'Stock',
    name,
    [
      expires === null ? null : `expiry ${describeDate(expires)}`,
      describeAge(origin),
      batch?.emulsion ? `emulsion ${batch.emulsion}` : null,
      stored ? `kept in the ${stored.place}` : null,
    ],
    'not known',
  );
}

function exposureFact({ frame, roll }: FrameOrigin): OriginFact {
  const made = [frame.shutter, frame.aperture === null ? null : formatAperture(frame.aperture)];
  return fact(
    'exposure',
    'Exposure',
    made.filter((part) => part !== null).join(' '),
    [
      roll.exposureIndex === null ? null : `EI ${roll.exposureIndex}`,
      frame.filter === null ? null : `filter ${frame.filter}`,
    ],
    'not written down',
  );
}

function takenFact({ frame, outing, roll }: FrameOrigin): OriginFact | null {
  if (frame.taken !== null) return fact('taken', 'Taken', describeDate(frame.taken), [], '');
  if (outing?.date) return null;
  return fact('taken', 'Taken', roll.shot === null ? null : describeSpan(roll.shot), [], 'no date known');
}

function scansFact({ frame }: FrameOrigin): OriginFact {
  const best = frame.versions[0];
  const names = frame.versions.map(({ path }) =>
    path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1),
  );
  return fact(
    'scans',
    frame.versions.length > 1 ? `Scans, ${frame.versions.length}` : 'Scan',
    names.join(', '),
    [
      best?.width && best.height
        ? `${Math.round(best.width * best.region.width)} × ${Math.round(best.height * best.region.height)} pixels`
        : null,
    ],
    'none yet',
  );
}

function outingFact({ outing, roll }: FrameOrigin): OriginFact {
  const labels = outing?.rolls.find(({ id }) => id === roll.id)?.labels ?? [];
  return fact(
    'outing',
    'Outing',
    outing?.title ?? null,
    [
      outing?.date ? describeDate(outing.date) : null,
      outing?.place ?? null,
      labels.length > 0 ? `frames ${formatFrameRange(labels)}` : null,
    ],
    'none written down',
  );
}

const FAULT_EDGE = (edge: string | null) => (edge === null ? '' : `, ${edge} edge`);

/** The name of a frame: `Frame 24 of roll 2024-031`. */
export function nameOrigin({ frame, roll }: FrameOrigin): string {
  return `Frame ${frame.label} of roll ${roll.number}`;
}

/** The lines of a frame's card, in the order in which they are read. */
export function describeOrigin(origin: FrameOrigin): readonly OriginFact[] {
  const { frame, roll } = origin;
  const film = findFilmFormat(roll.filmFormat)?.name ?? roll.filmFormat;
  const format = findFrameFormat(frame.frameFormat)?.name ?? frame.frameFormat;
  const optional = (key: OriginKey, label: string, value: string | null) =>
    value === null || value === '' ? null : fact(key, label, value, [], '');
  const facts: readonly (OriginFact | null)[] = [
    fact('roll', 'Roll', roll.number, [roll.title, `${film}, ${format}`], ''),
    fact('lies', 'Lies in', frame.lies === null ? null : formatAddress(frame.lies), [], 'no page yet'),
    outingFact(origin),
    takenFact(origin),
    optional('place', 'Place', frame.place),
    fact(
      'camera',
      'Camera',
      roll.camera?.name ?? null,
      [frame.lens === null ? null : `lens ${frame.lens}`],
      'not known',
    ),
    stockFact(origin),
    exposureFact(origin),
    developmentFact(origin),
    developerFact(origin),
    bathFact(origin),
    scansFact(origin),
    optional('tags', 'Tags', frame.tags.join(', ')),
    optional(
      'faults',
      'Faults',
      frame.faults.map(({ kind, edge }) => `${kind}${FAULT_EDGE(edge)}`).join('; '),
    ),
    optional('note', 'Note', frame.note),
  ];
  return facts.filter((each) => each !== null);
}

/** The card of a frame as plain text, one fact to a line, to be pasted elsewhere. */
export function originText(origin: FrameOrigin): string {
  const { frame, along } = origin;
  const lines = describeOrigin(origin).map(
    ({ label, value, details }) => `${label}: ${[value, ...details].join('; ')}`,
  );
  const neighbours = along
    .filter(({ id }) => id !== frame.id)
    .map(({ label, caption }) => (caption === null ? label : `${label} (${caption})`));
  return [
    nameOrigin(origin),
    ...(frame.caption === null ? [] : [frame.caption]),
    '',
    ...lines,
    ...(neighbours.length > 0 ? [`Beside it: ${neighbours.join(', ')}`] : []),
    '',
  ].join('\n');
}
