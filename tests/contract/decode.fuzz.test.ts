/**
 * A small seeded share of `npm run bench -- lost-input`: every broken file gives a picture or an error
 * with a name. How long each takes, and what decoding in the browser makes of them, is tried there.
 */
import { createRequire } from 'node:module';
import { beforeAll, expect, test, vi } from 'vitest';
import { StudioError } from '../../src/contract/errors.ts';
import { decodeImage } from '../../workers/decode/index.ts';
import { readDepthFile } from '../../workers/depth/index.ts';
import { fuzzDocuments } from './fuzz/documents.ts';
import { mutate } from './fuzz/mutate.ts';
import { randomOf } from './fuzz/random.ts';
import { seeds } from './fuzz/seeds.ts';

vi.mock('lcms-wasm/dist/lcms.wasm?url', () => ({
  default: createRequire(import.meta.url).resolve('lcms-wasm/dist/lcms.wasm'),
}));

// The OpenEXR library tells the console of every name it does not know.
beforeAll(() => {
  vi.spyOn(console, 'warn').mockImplementation(() => undefined);
});

/** Codes of named errors; `image` for a picture; throws whatever is neither. */
const outcomeOf = async (work: Promise<unknown>, name: string): Promise<string> => {
  try {
    await work;
    return 'image';
  } catch (error) {
    if (!(error instanceof StudioError) || error.code === 'internal') throw error;
    expect(error.file).toBe(name);
    expect(error.message).toContain(name);
    return error.code;
  }
};

test('broken pictures: an image or a named error each', async () => {
  const files = await seeds();
  const random = randomOf(20261125);
  const outcomes = new Map<string, number>();
  for (const { name, bytes } of files)
    for (let n = 0; n < 5; n += 1) {
      const broken = mutate(bytes, random, random.pick(files).bytes);
      const file = new Blob([broken]);
      const outcome = await outcomeOf(decodeImage(file, name), name);
      await outcomeOf(readDepthFile({ key: '1', file, name }), name);
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
    }
  // The fuzzer does its work: most are refused, and not all.
  expect(outcomes.get('damaged')).toBeGreaterThan(150);
  expect(outcomes.get('image')).toBeGreaterThan(10);
});

test('broken jobs, job files and zips: read whole or refused by name', async () => {
  const answers = await fuzzDocuments(20261125, 300);
  const bad = answers.filter(({ answer }) => ['unnamed', 'not whole'].includes(answer.outcome));
  expect(bad).toEqual([]);
  for (const row of ['Job documents', 'Job files', 'Zips of frames']) {
    const some = answers.filter((one) => one.row === row).map(({ answer }) => answer.outcome);
    expect(some, row).toContain('damaged');
  }
  expect(answers.some(({ answer }) => answer.outcome === 'image')).toBe(true);
});
