import { describe, expect, it } from 'vitest';
import type { JobEdit } from '../../../src/job/edits/edit.ts';
import {
  changeCopies,
  changeLensBatch,
  tickMounted,
  untickMounted,
} from '../../../src/job/edits/print-run.ts';
import { runKindOf, runPiecesOf } from '../../../src/job/facts/print-run.ts';
import { setGang } from '../../../src/job/facts/gang.ts';
import { setTiles } from '../../../src/job/facts/tiles.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import * as v from 'valibot';

const apply = (job: Job, ...edits: JobEdit[]): Job =>
  edits.reduce((now, [, edit]) => v.parse(jobSchema, edit(now)), job);

/** 203 × 254 mm under lens sheets of 120 × 150 mm: two by two. */
const wall = setTiles(newJob(), { on: true, lensAcrossMm: 120, lensAlongMm: 150 });
const names = (job: Job) => runPiecesOf(job).map(({ piece, copy }) => `${piece} (${copy})`);

describe('the pieces of a print', () => {
  it('are the sheet, the lens sheet of several prints, or the tiles row by row', () => {
    expect([runKindOf(newJob()), names(newJob())]).toEqual(['sheet', ['sheet (1)']]);
    const several = setGang(newJob(), { on: true });
    expect([runKindOf(several), names(several)]).toEqual(['several', ['lens sheet (1)']]);
    expect(names(wall)).toEqual(
      ['row 1, tile 1', 'row 1, tile 2', 'row 2, tile 1', 'row 2, tile 2'].map(
        (one) => `${one} (1)`,
      ),
    );
  });

  it('come copy by copy, and each points at its file', () => {
    const twice = apply(wall, changeCopies(2));
    expect(names(twice).slice(3, 6)).toEqual([
      'row 2, tile 2 (1)',
      'row 1, tile 1 (2)',
      'row 1, tile 2 (2)',
    ]);
    expect(runPiecesOf(twice).map(({ index }) => index)).toEqual([0, 1, 2, 3, 0, 1, 2, 3]);
  });

  it('are none while the print cannot be divided', () => {
    expect(runPiecesOf(setTiles(wall, { cutOffMm: 60 }))).toEqual([]);
  });
});

describe('a piece that is mounted', () => {
  const first = { piece: 'row 1, tile 1', copy: 1 };
  const second = { piece: 'row 1, tile 2', copy: 1 };

  it('notes the day and the pitch; the next one takes over its lens batch', () => {
    const job = apply(
      wall,
      tickMounted(first, '2026-04-02'),
      changeLensBatch(first, 'B-7'),
      tickMounted(second, '2026-04-03'),
    );
    const [one, two, three] = runPiecesOf(job);
    const pitchMm = 25.4 / 60;
    expect(one?.mounted).toMatchObject({ on: '2026-04-02', lensBatch: 'B-7', proved: false });
    expect(one?.mounted?.pitchMm).toBeCloseTo(pitchMm, 6);
    expect(two?.mounted).toMatchObject({ on: '2026-04-03', lensBatch: 'B-7' });
    expect(three?.mounted).toBeUndefined();
  });

  it('keeps its own pitch when another is proved afterwards', () => {
    const job = apply(wall, tickMounted(first, '2026-04-02'));
    const later = { ...job, lens: { ...job.lens, pitchMm: 0.43 } };
    expect(runPiecesOf(later)[0]?.mounted?.pitchMm).toBeCloseTo(25.4 / 60, 6);
  });

  it('is ticked once, and a tick can be taken back', () => {
    const twice = apply(wall, tickMounted(first, '2026-04-02'), tickMounted(first, '2026-04-09'));
    expect(twice.printRun?.mounted).toHaveLength(1);
    expect(runPiecesOf(twice)[0]?.mounted?.on).toBe('2026-04-02');
    expect(apply(twice, untickMounted(first)).printRun?.mounted).toEqual([]);
  });

  it('loses its batch when the field is emptied', () => {
    const job = apply(
      wall,
      tickMounted(first, '2026-04-02'),
      changeLensBatch(first, 'B-7'),
      changeLensBatch(first, ''),
    );
    expect(runPiecesOf(job)[0]?.mounted).not.toHaveProperty('lensBatch');
  });
});
