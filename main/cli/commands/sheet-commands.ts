import type { Given } from '../../../shared/api/contract.ts';
import { appError } from '../../../shared/api/errors.ts';
import { findPaper, parsePaperSize } from '../../../shared/sheet/paper.ts';
import { type Command, type Options, UsageError } from '../command.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

type Spec = Given<'sheets.write'>['spec'];

/** A paper by name or by size. @throws {AppError} paper_not_found */
function readPaper(name: string): Pick<Spec, 'paperId' | 'customMm'> {
  const known = findPaper(name.toLowerCase());
  if (known) return { paperId: known.id, customMm: null };
  const size = parsePaperSize(name);
  if (!size.ok) throw appError('paper_not_found', { name });
  return { paperId: 'custom', customMm: size.value };
}

function readLook(options: Options): 'film' | 'ink-saving' {
  const look = options.text('look') ?? 'film';
  if (look === 'film' || look === 'ink-saving') return look;
  throw new UsageError(`--look takes film or ink-saving, not “${look}”.`);
}

function readScale(options: Options): number | 'fit' {
  return options.text('scale') === 'fit' ? 'fit' : (options.number('scale') ?? 1);
}

function readTrim(options: Options): 'none' | 'outer' | 'all' {
  const trim = options.text('trim') ?? 'none';
  if (trim === 'none' || trim === 'outer' || trim === 'all') return trim;
  throw new UsageError(`--trim takes none, outer or all, not “${trim}”.`);
}

function readPpi(options: Options): 300 | 600 {
  const ppi = options.number('ppi') ?? 300;
  if (ppi === 300 || ppi === 600) return ppi;
  throw new UsageError('--ppi takes 300 or 600.');
}

const SHEET: Command = {
  name: 'sheet',
  usage: '--roll X --paper 8x10in --out F.pdf|.png|.tif',
  summary: 'write a contact sheet of rolls as they lie in their pages',
  options: {
    roll: text,
    paper: text,
    out: text,
    look: text,
    scale: text,
    trim: text,
    ppi: text,
    title: text,
    margin: text,
    captions: flag,
    'more-sheets': flag,
    'no-marks': flag,
    'no-ruler': flag,
    'no-heading': flag,
    overwrite: flag,
  },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const numbers = options.list('roll');
    if (numbers.length === 0) throw new UsageError('--roll is needed.');
    const rolls = await Promise.all(numbers.map((number) => ask('rolls.byNumber', { number })));
    const margin = options.number('margin');
    const written = await ask('sheets.write', {
      rollIds: rolls.map((roll) => roll.id),
      file: options.need('out'),
      overwrite: options.flag('overwrite'),
      ppi: readPpi(options),
      spec: {
        ...readPaper(options.need('paper')),
        ...(margin === undefined ? {} : { marginMm: margin }),
        look: readLook(options),
        scale: readScale(options),
        trim: readTrim(options),
        sheets: options.flag('more-sheets') ? 'as-needed' : 'one',
        captions: options.flag('captions'),
        pencilMarks: !options.flag('no-marks'),
        ruler: !options.flag('no-ruler'),
        heading: !options.flag('no-heading'),
        title: options.text('title') ?? null,
      },
    });
    const { misfit } = written;
    const offers = misfit?.offers.map((offer) => `  ${offer.sentence}`) ?? [];
    const lines = misfit
      ? ['No sheet was written: it does not fit at this size.', misfit.sentence, 'What would fit:', ...offers]
      : [
          `${written.files.join(', ')}: ${written.pages} ${written.pages === 1 ? 'page' : 'pages'}.`,
          ...(written.scale === 1
            ? []
            : [`Printed at ${Math.round(written.scale * 1000) / 10} % of true size.`]),
          ...(written.missingGlyphs.length > 0
            ? [`No letter form for: ${written.missingGlyphs.join(' ')}`]
            : []),
        ];
    if (!misfit) return { json: written, lines };
    const error = {
      code: 'paper_too_small',
      title: 'No sheet was written',
      detail: misfit.sentence,
      advice: misfit.offers.map((offer) => offer.sentence).join(' '),
    };
    return { json: { ...written, error }, lines, notDone: true };
  },
};

export const SHEET_COMMANDS: readonly Command[] = [SHEET];
