/** What an undo step is called: the words of the field, with the old and the new value. */
import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { isOnJobSheet, sayStep } from '../../src/job/words/steps.ts';

const metric = { units: 'mm', pitchUnit: 'lpi' } as const;
const before = newJob();
const said = (label: string, after: Job, looks: Parameters<typeof sayStep>[3] = metric) =>
  sayStep(label, before, after, looks);

describe('an undo step', () => {
  it('is called by the field, from the old value to the new', () => {
    const after = { ...before, lens: { ...before.lens, thicknessMm: 0.82 } };
    expect(said('lens thickness', after)).toBe('lens thickness 0.84 → 0.82 mm');
    expect(said('lens pitch', { ...before, lens: { ...before.lens, pitchMm: 25.4 / 75 } })).toBe(
      'lens pitch 60 → 75 LPI',
    );
    expect(said('view slots', { ...before, viewSlots: 10 })).toBe('view slots 12 → 10');
    expect(said('ribs run', { ...before, ribs: 'lying' })).toBe('ribs run upright → lying');
    expect(said('job name', { ...before, name: 'Sea gate' })).toBe(
      'job name “Untitled print” → “Sea gate”',
    );
  });

  it('has the units that the fields show', () => {
    const after = { ...before, print: { ...before.print, widthMm: 254 } };
    expect(said('print width', after, { units: 'in', pitchUnit: 'mm' })).toBe(
      'print width 8 → 10 in',
    );
  });

  it('says what a value stood for while none was set', () => {
    expect(said('depth gain', { ...before, depthGain: 0.5 })).toBe('depth gain 1 → 0.5');
    expect(
      said('bleed', {
        ...before,
        page: { paper: 'a4', marginsMm: { left: 5, top: 5, right: 5, bottom: 5 } } as never,
      }),
    ).toBe('bleed');
  });

  it('keeps its label where there is no such field, or nothing of it changed', () => {
    expect(said('reversed order', { ...before, frames: [] })).toBe('reversed order');
    expect(said('lens pitch', before)).toBe('lens pitch');
  });

  it('knows what lies on the job sheet, which is always in view', () => {
    expect(isOnJobSheet('viewing distance')).toBe(true);
    expect(isOnJobSheet('depth gain')).toBe(false);
  });
});
