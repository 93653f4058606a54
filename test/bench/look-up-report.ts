// Tables from what look-up-measure.ts wrote. Run: node test/bench/look-up-report.ts SET TRIALS...
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Trial } from './look-up-measure.ts';
import type { LabelledSet } from './look-up-set.ts';

const [setFolder = '', ...files] = process.argv.slice(2);
const set: LabelledSet = JSON.parse(readFileSync(join(setFolder, 'manifest.json'), 'utf8'));
const sceneOf = new Map(set.frames.map((one) => [one.id, one.scene]));
const trials: Trial[] = files.flatMap((file) =>
  readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line)),
);

const percent = (part: number, whole: number) => (whole === 0 ? '–' : ((100 * part) / whole).toFixed(1));
function quantile(values: readonly number[], share: number): string {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(values.length - 1, Math.floor(values.length * share))]?.toFixed(0) ?? '–';
}

function row(name: string, list: readonly Trial[]): string {
  const told = list.filter((trial) => trial.answer !== 'cannot-tell');
  const right = (trial: Trial) => sceneOf.get(trial.hits[0]?.id ?? -1) === trial.scene;
  const scene = told.filter(right);
  const exact = told.filter((trial) => trial.hits[0]?.id === trial.id);
  const wrong = told.filter((trial) => trial.hits.length > 0 && !right(trial));
  const none = told.filter((trial) => trial.hits.length === 0);
  const bursts = scene.filter((trial) => trial.burst > 1);
  const burstExact = bursts.filter((trial) => trial.hits[0]?.id === trial.id);
  const saidFrame = bursts.filter((trial) => trial.answer === 'frame');
  const saidFrameRight = saidFrame.filter((trial) => trial.hits[0]?.id === trial.id);
  const plain = list.filter((trial) => sceneOf.get(trial.plain?.id ?? -1) === trial.scene);
  return [
    name,
    list.length,
    list.length - told.length,
    percent(scene.length, told.length),
    percent(exact.length, told.length),
    wrong.length,
    none.length,
    percent(exact.filter((trial) => trial.placed).length, exact.length),
    `${burstExact.length}/${bursts.length}`,
    `${saidFrameRight.length}/${saidFrame.length}`,
    percent(plain.length, list.length),
    quantile(
      list.map((trial) => trial.wallMs),
      0.5,
    ),
    quantile(
      list.map((trial) => trial.wallMs),
      0.95,
    ),
    quantile(
      list.map((trial) => trial.cpuMs),
      0.5,
    ),
  ].join(' | ');
}

console.log(
  'kind | n | cannot tell | scene % | exact % | wrong | none | placed % | burst exact | of them said "frame" | plain hash % | wall p50 | p95 | cpu p50',
);
console.log('---|---|---|---|---|---|---|---|---|---|---|---|---|---');
const present = trials.filter((trial) => trial.kind !== 'absent');
for (const kind of new Set(present.map((trial) => trial.kind)))
  console.log(
    row(
      kind,
      present.filter((trial) => trial.kind === kind),
    ),
  );
console.log(row('all', present));
console.log(
  row(
    'all, photographs',
    present.filter((trial) => trial.real),
  ),
);
console.log(
  row(
    'all, drawn',
    present.filter((trial) => !trial.real),
  ),
);
const absent = trials.filter((trial) => trial.kind === 'absent');
const falsely = absent.filter((trial) => trial.hits.length > 0);
const plainFalse = absent.filter((trial) => trial.plain !== null && trial.plain.distance <= 10);
console.log(
  `absent: ${absent.length} (${absent.filter((trial) => trial.real).length} of photographs), false ${falsely.length}, cannot tell ${absent.filter((trial) => trial.answer === 'cannot-tell').length}, plain hash at ≤ 10: ${plainFalse.length}; wall p50 ${quantile(
    absent.map((trial) => trial.wallMs),
    0.5,
  )}, p95 ${quantile(
    absent.map((trial) => trial.wallMs),
    0.95,
  )}, cpu p50 ${quantile(
    absent.map((trial) => trial.cpuMs),
    0.5,
  )} ms`,
);
