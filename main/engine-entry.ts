import { randomBytes } from 'node:crypto';
import { PREVIEW_METHODS } from '../shared/api/host-contract.ts';
import { answerFrom, serve, type Service } from '../shared/api/rpc.ts';
import { createEngine } from './engine/engine.ts';
import { processTransport } from './transport/child-process.ts';

// What the child process of a desktop shell runs: makes the engine and serves it on the channel to its parent.

const engine = createEngine();
const transport = processTransport(process);

const previews = answerFrom(
  PREVIEW_METHODS,
  { 'previews.file': async ({ pictureId, size }) => ({ path: await engine.previewFile(pictureId, size) }) },
  false,
);
const service: Service = {
  call: (name, input, options) =>
    Object.hasOwn(PREVIEW_METHODS, name) ? previews(name, input, options) : engine.call(name, input, options),
  onEvent: (listener) => engine.onEvent(listener),
};

serve(transport, service, {
  newReference: () => randomBytes(4).toString('hex'),
  onBug: (error, reference) =>
    process.stderr.write(
      `${reference} ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    ),
});

// Without its parent nobody can ask anything: the archive is closed in order, and the process ends.
transport.onClose(() => {
  engine.close().finally(() => process.exit());
});
