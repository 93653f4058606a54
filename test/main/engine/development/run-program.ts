import { z } from 'zod';
import { createEngine } from '../../../../main/engine/engine.ts';

/**
 * Run as a process of its own, to be killed: makes an archive in the folder given, pours the developer at the moment
 * given (ms), reads 37.6 °C after a minute, says the number of the development and stays.
 */
const [folder = '', startMs = '0'] = process.argv.slice(2);
const made = z.object({ id: z.number() });
let nowMs = Number(startMs);
const engine = createEngine({ now: () => new Date(nowMs) });
await engine.call('archive.create', { folder });
const roll = made.parse(
  await engine.call('rolls.add', { number: 'A', filmFormat: '135', frameFormat: '24x36' }),
);
const { id } = made.parse(await engine.call('developments.start', { rollIds: [roll.id], process: 'c41' }));
await engine.call('developments.note', { id, event: { kind: 'step_started', step: 0 } });
nowMs += 60_000;
await engine.call('developments.note', { id, event: { kind: 'temperature_read', celsius: 37.6 } });
process.stdout.write(`${id}\n`);
setInterval(() => undefined, 1000);
