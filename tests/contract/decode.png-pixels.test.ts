/** A PNG must hold all of its rows, to their checksum: browsers leave out what is missing and pass over the rest. */
import { expect, test } from 'vitest';
import { readDepthFile } from '../../workers/depth/index.ts';
import { HEIGHT, WIDTH } from './decode-fixtures/picture.ts';
import { raw16 } from './decode-helpers.ts';
import { wrongAdler } from './fuzz/hostile.ts';
import { mendPng } from './fuzz/mutate.ts';
import { AGAIN, NAME, expectOthersRefuse, expectRefused, picture } from './refusals.ts';

const wide = () => raw16(new Uint16Array(WIDTH * HEIGHT * 3).fill(7), WIDTH, HEIGHT, 3);

test.each([
  ['8 bit', () => picture().png().toBuffer()],
  ['interlaced', () => picture().png({ progressive: true }).toBuffer()],
  ['16 bit', () => wide().png().toBuffer()],
])('with a wrong Adler-32, %s', async (_, make) => {
  const png = await make();
  const forged = wrongAdler(png);
  await expectRefused(forged, 'damaged', /checksum \(Adler-32\)/);
  await expectRefused(forged, 'damaged', AGAIN);
  const depths = readDepthFile({ key: '1', name: NAME, file: new Blob([forged]) });
  await expect(depths).rejects.toMatchObject({ code: 'damaged', file: NAME });
});

test('with fewer rows than its header states', async () => {
  const png = await picture().png().toBuffer();
  png.writeUInt32BE(HEIGHT + 3, 20);
  const forged = mendPng(Uint8Array.from(png));
  await expectRefused(forged, 'damaged', /unpack to less than its size says/);
  await expectOthersRefuse(forged);
});
