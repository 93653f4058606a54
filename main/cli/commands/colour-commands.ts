import type { Command } from '../command.ts';
import { UsageError } from '../command.ts';
import { stockByName } from '../names.ts';

const text = { type: 'string' } as const;

const CAST: Command = {
  name: 'cast',
  usage: '--roll N | --stock N | --image FILE',
  summary: 'measure the colour cast of a roll, the rolls of a stock, or one picture',
  options: { roll: text, stock: text, image: text },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const image = options.text('image');
    if (image !== undefined) {
      const cast = await ask('colour.ofImage', { file: image });
      return {
        json: cast,
        lines: [cast.direction === null ? 'No cast is called.' : `Cast: ${cast.direction}.`, cast.note],
      };
    }
    const stock = options.text('stock');
    if (stock !== undefined) {
      const { rolls } = await ask('colour.ofStock', { stockId: await stockByName(ask, stock) });
      const json = { rolls: rolls.map(({ roll, cast }) => ({ roll, ...cast })) };
      return { json, lines: rolls.map(({ roll, cast }) => `${roll}: ${cast.say}`) };
    }
    const number = options.text('roll');
    if (number === undefined) throw new UsageError('One of --roll, --stock or --image is needed.');
    const roll = await ask('rolls.byNumber', { number });
    const cast = await ask('colour.ofRoll', { rollId: roll.id });
    const frames = cast.frames.map(({ frameId: _id, outlier: _apart, reads: _reads, label, ...frame }) => ({
      frame: label,
      ...frame,
    }));
    const lines = [
      cast.roll.say,
      ...(cast.base === null ? [] : [cast.base.say]),
      ...frames.map((frame) => `${frame.frame.padEnd(4)} ${frame.note}`),
    ];
    return { json: { kind: cast.kind, frames, roll: cast.roll, base: cast.base }, lines };
  },
};

export const COLOUR_COMMANDS: readonly Command[] = [CAST];
