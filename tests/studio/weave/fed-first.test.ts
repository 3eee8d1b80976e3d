/** What a woven file says of the edge that is fed first, and that it is out of date once that is another one. */
import { expect, test } from 'vitest';
import { setPrinter } from '../../../src/job/edits/consequences.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { sheetInfo } from '../../../src/studio/weave/sheet-info.ts';
import { wovenFrom } from '../../../src/studio/weave/woven-from.ts';

const onFirstDay = new Date('2026-11-30');

test('the file stands upright, its densities are those of the page as it is fed', () => {
  const job = setPrinter(newJob(), { carriageDpi: 1440, feedDpi: 720, fedFirst: 'top' });
  const turned = setPrinter(job, { fedFirst: 'side' });
  // 8 × 10 in.
  expect(sheetInfo(job, onFirstDay)).toMatchObject({
    width: 11520,
    height: 7200,
    horizontalDpi: 1440,
    verticalDpi: 720,
    description: expect.stringMatching(/no scaling, top edge first/) as string,
  });
  expect(sheetInfo(turned, onFirstDay)).toMatchObject({
    width: 5760,
    height: 14400,
    horizontalDpi: 720,
    verticalDpi: 1440,
    description: expect.stringMatching(/no scaling, a side first/) as string,
  });
});

test('with equal dots both ways the edge alone makes another file', () => {
  const turned = setPrinter(newJob(), { fedFirst: 'side' });
  expect(wovenFrom(turned, undefined)).not.toBe(wovenFrom(newJob(), undefined));
  expect(wovenFrom(setPrinter(newJob(), { fedFirst: 'top' }), undefined)).toBe(
    wovenFrom(newJob(), undefined),
  );
});
