/** What a weave says where its colours cannot be converted, and what its files depend on. */
import { expect, test } from 'vitest';
import { openMemoryShelf } from '../../../src/files/shelves.ts';
import type { JobColour } from '../../../src/job/schema/colour.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import { addEntry, emptyShelves } from '../../../src/materials/shelves.ts';
import { newPaper } from '../../../src/materials/use-in-job.ts';
import { colourChoices, inkOf } from '../../../src/studio/colour/choices.ts';
import { checkHolds, conversionOf } from '../../../src/studio/colour/conversion.ts';
import { wovenFrom } from '../../../src/studio/weave/woven-from.ts';
import * as v from 'valibot';
import { makeStudio } from '../support.ts';

const colour: JobColour = {
  profileId: '0123456789abcdef0123456789abcdef',
  profile: 'Glossy best',
  paper: 'Glossy 260',
  space: 'CMYK',
  intent: 'relative',
};
const job = { ...newJob(), colour };

test('a profile that is gone is named, and how to mend it', async () => {
  const studio = makeStudio({ profiles: openMemoryShelf() });
  await expect(conversionOf(studio, job)).rejects.toMatchObject({
    code: 'file-gone',
    message: expect.stringMatching(/“Glossy best” of Glossy 260.*Workshop.*Tagged sRGB/) as string,
  });
  expect(await conversionOf(studio, newJob())).toBeUndefined();
});

test('CMYK is not woven as PNG', () => {
  expect(() => checkHolds(job, 'png')).toThrow(/Choose TIFF or PDF/);
  expect(() => checkHolds(job, 'tiff')).not.toThrow();
  expect(() => checkHolds({ colour: { ...colour, space: 'RGB' } }, 'png')).not.toThrow();
});

test('a job keeps its colours, and one without them weaves what it wove', () => {
  expect(v.parse(jobSchema, JSON.parse(JSON.stringify(job)))).toEqual(job);
  expect(v.safeParse(jobSchema, { ...job, colour: { ...colour, profileId: '..' } }).success).toBe(
    false,
  );
  expect(wovenFrom(job, undefined)).not.toBe(wovenFrom(newJob(), undefined));
  // Names do not change a dot.
  const renamed = { ...job, colour: { ...colour, paper: 'Shelf two' } };
  expect(wovenFrom(renamed, undefined)).toBe(wovenFrom(job, undefined));
});

test('papers with a profile can be chosen, and one that is gone stays until another is', () => {
  const { profileId: id, profile: name } = colour;
  const paper = {
    ...newPaper(emptyShelves(), 'a-paper'),
    profile: { id, name, space: 'CMYK' as const, use: 'printer' as const, mostInk: 320 },
    inkLimit: 280,
  };
  const shelves = addEntry(emptyShelves(), 'papers', paper);
  expect(colourChoices(newJob(), shelves).map((one) => one.paper)).toEqual(['My paper']);
  expect(colourChoices(newJob(), emptyShelves())).toEqual([]);
  expect(colourChoices(job, emptyShelves())).toEqual([colour]);
  expect(inkOf(job, shelves)).toEqual({ most: 320, limit: 280 });
  expect(inkOf(job, emptyShelves())).toBeUndefined();
});
