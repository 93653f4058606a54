import type { ProposedFile } from '../../../shared/api/methods/scan-methods.ts';
import { appError } from '../../../shared/api/errors.ts';
import { type Command, UsageError } from '../command.ts';
import { readAddress } from '../names.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

/** A file as scripts read it: one label, or several of a file that shows several frames. */
function fileKeys(file: ProposedFile) {
  const labels = file.frames.map((frame) => frame.label);
  return {
    path: file.path,
    frame: labels.length === 1 ? labels[0] : labels.length === 0 ? null : labels.join(','),
    frames: labels,
    order: file.order,
    version: file.version,
    reason: file.reason,
    confidence: file.confidence,
    state: file.state,
    code: file.code,
    remark: file.remark,
  };
}

function fileInWords(file: ProposedFile): string {
  const labels = file.frames.map((frame) => frame.label).join(', ') || '–';
  const sure = `${Math.round(file.confidence * 100)} %`;
  return [
    file.path.padEnd(28),
    labels.padEnd(6),
    sure.padStart(5),
    file.state.padEnd(8),
    file.remark ?? file.reason,
  ].join('  ');
}

const SCAN_IN: Command = {
  name: 'scan-in',
  usage: 'FOLDER --roll X [--dry-run] [--reverse] [--first 00]',
  summary: 'tie the scans of a folder to the frames of a roll',
  options: { roll: text, 'dry-run': flag, reverse: flag, first: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals, waitForJob }) => {
    const folder = positionals[0] ?? '';
    const roll = await ask('rolls.byNumber', { number: options.need('roll') });
    const dry = options.flag('dry-run');
    const read = dry ? null : await ask('scans.read', { folder });
    if (read) await waitForJob(read.id);
    const proposal = await ask('scans.propose', {
      folder,
      rollId: roll.id,
      options: { reverse: options.flag('reverse') ? true : null, firstLabel: options.text('first') ?? null },
    });
    const accepted = proposal.files.flatMap((file) =>
      file.scanId === null || file.frames.length === 0
        ? []
        : [
            {
              scanId: file.scanId,
              version: file.version,
              reason: file.reason,
              confidence: file.confidence,
              frames: file.frames,
            },
          ],
    );
    if (!dry && accepted.length > 0) await ask('scans.accept', { rollId: roll.id, files: accepted });
    if (!dry && proposal.files.length === 0)
      throw appError('folder_unreadable', { path: folder, reason: 'no scans are in it' });
    const json = {
      roll: roll.number,
      dryRun: dry,
      files: proposal.files.map(fileKeys),
      questions: proposal.questions,
      notes: proposal.notes,
      litter: proposal.litter,
    };
    const lines = [
      ...proposal.files.map(fileInWords),
      ...proposal.questions.map((question) => `? ${question.text}`),
      ...proposal.notes,
      ...(proposal.litter.length > 0 ? [`${proposal.litter.length} other files were passed over.`] : []),
      dry ? 'Nothing was recorded.' : `${accepted.length} files are tied to frames of ${roll.number}.`,
    ];
    return { json, lines };
  },
};

const UNTIE: Command = {
  name: 'untie',
  usage: 'ROLL/FRAME | ROLL --file NAME',
  summary: 'take wrongly tied scans off a frame, or a file off a roll; frames and files stay',
  options: { file: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const { roll, rollId, frame } = await readAddress(ask, positionals[0] ?? '');
    const file = options.text('file') ?? null;
    if (frame === null && file === null)
      throw new UsageError('Name a frame (ROLL/FRAME), or a file of the roll with --file.');
    const frameId = frame === null ? null : (await ask('frames.byLabel', { roll, label: frame })).id;
    const scans = (await ask('scans.ofRoll', { rollId })).filter(
      (scan) =>
        (file === null || scan.path === file || scan.path.split(/[/\\]/).at(-1) === file) &&
        (frameId === null || scan.frames.some(({ id }) => id === frameId)),
    );
    const where = frame === null ? `roll ${roll}` : `frame ${roll}/${frame}`;
    if (scans.length === 0) throw appError('scan_not_found', { name: file ?? where });
    const { untied } = await ask('scans.untie', { rollId, scanIds: scans.map(({ id }) => id), frameId });
    const paths = scans.map(({ path }) => path);
    return {
      json: { roll, frame, untied, files: paths },
      lines: [`Off ${where}: ${paths.join(', ')}. The files stay where they are.`],
    };
  },
};

export const SCAN_COMMANDS: readonly Command[] = [SCAN_IN, UNTIE];
