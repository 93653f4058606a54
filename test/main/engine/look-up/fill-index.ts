// Run by the test that kills it: adds pictures to the index in argv[2] without end and says "flushed" after each.
import { readFileSync } from 'node:fs';
import { createFastKernels } from '../../../../main/engine/look-up/fast-kernels.ts';
import { openLookUpIndex } from '../../../../main/engine/look-up/look-up-index.ts';
import { readCodebook } from '../../../../shared/domain/look-up/codebook.ts';
import { describePicture } from '../../../../shared/domain/look-up/describe-picture.ts';
import { seededRandom } from '../../../support/seeded-random.ts';

const codebook = readCodebook(readFileSync(new URL('../../../../assets/codebook.bin', import.meta.url)));
if (!codebook.ok) throw new Error(codebook.reason);
const kernels = createFastKernels();
const index = openLookUpIndex({
  folder: process.argv[2] ?? '',
  codebook: codebook.value,
  kernels,
  verify: async () => null,
});
const random = seededRandom(1);
for (let id = 1; id < 100_000; id++) {
  const pixels = Uint8Array.from({ length: 96 * 64 }, () => random() * 255);
  index.add(id, id, describePicture(pixels, 96, 64, kernels));
  index.flush();
  process.stdout.write('flushed\n');
}
