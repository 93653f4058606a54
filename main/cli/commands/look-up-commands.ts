import type { Command } from '../command.ts';

const ANSWERS = {
  frame: 'It is this frame:',
  scene: 'It is this scene, one of these frames:',
  none: 'It is not in the archive.',
  'cannot-tell': 'The picture has too little detail to tell.',
} as const;

const WHICH: Command = {
  name: 'which',
  usage: 'IMAGE [--limit 5]',
  summary: 'find the frame that a picture file shows',
  options: { limit: { type: 'string' } },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals, waitForJob }) => {
    const job = await ask('pictures.describe', {});
    if (job) await waitForJob(job.id);
    const found = await ask('pictures.which', {
      file: positionals[0] ?? '',
      limit: options.number('limit') ?? 5,
    });
    const hits = found.hits.map((hit) => ({
      roll: hit.roll,
      frame: hit.frame,
      confidence: hit.confidence,
      region: hit.region,
      turned: hit.turned,
      mirrored: hit.mirrored,
      negative: hit.negative,
      binder: hit.lies?.binder ?? null,
      page: hit.lies?.page ?? null,
      row: hit.lies?.row ?? null,
      position: hit.lies?.position ?? null,
    }));
    const lines = hits.map((hit) => {
      const place =
        hit.binder === null
          ? 'not filed yet'
          : `${hit.binder}, page ${hit.page}, row ${hit.row}, position ${hit.position}`;
      const how = [
        hit.turned === 0 ? '' : `turned ${hit.turned}°`,
        hit.mirrored ? 'mirrored' : '',
        hit.negative ? 'negative' : '',
      ];
      return [
        `${hit.roll}/${hit.frame}`,
        `${Math.round(hit.confidence * 100)} %`,
        place,
        ...how.filter(Boolean),
      ].join(' · ');
    });
    return { json: { hits }, lines: [ANSWERS[found.answer], ...lines] };
  },
};

const DUPLICATES: Command = {
  name: 'duplicates',
  usage: '',
  summary: 'list files of one content and scans that look like one frame',
  options: {},
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, waitForJob }) => {
    const job = await ask('pictures.describe', {});
    if (job) await waitForJob(job.id);
    const duplicates = await ask('pictures.duplicates', {});
    const lines = duplicates.flatMap((group) => [
      `${group.kind}: ${group.reason}`,
      ...group.scans.map(
        (scan) => `  ${scan.path}${scan.frames.length > 0 ? ` (${scan.frames.join(', ')})` : ''}`,
      ),
    ]);
    return { json: { duplicates }, lines: lines.length > 0 ? lines : ['No duplicates were found.'] };
  },
};

export const LOOK_UP_COMMANDS: readonly Command[] = [WHICH, DUPLICATES];
