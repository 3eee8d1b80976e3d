/** Which reading of a strip counts, and what the studio advises about it. */
import { describe, expect, it } from 'vitest';
import { keepWoven, stripPlanOf, wovenOf } from '../../../src/job/facts/pitch.ts';
import type { StripReading } from '../../../src/job/facts/strip-readings.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { adviceOn, whichReading } from '../../../src/studio/read/which-reading.ts';

const plan = stripPlanOf(newJob(), 'mm');
if (!plan.ok) throw new Error(plan.message);
const strip = wovenOf(newJob(), plan.spec, '2026-11-20');

const photo: StripReading = {
  method: 'photo',
  viewingLpi: 59.95,
  plusMinusLpi: 0.04,
  ifTypedLpi: 0.004,
};
const counts: StripReading = {
  method: 'fringes',
  viewingLpi: 59.96,
  plusMinusLpi: 0.02,
  counted: strip.bandsLpi.length,
};
const band: StripReading = { method: 'band', viewingLpi: 59.94, plusMinusLpi: 0.035 };
const last: StripReading = { method: 'band', viewingLpi: 60.2, plusMinusLpi: 0.01, atEnd: true };

const methodOf = (readings: StripReading[], chosen?: StripReading['method']) =>
  whichReading(readings, chosen)?.taken.method;

describe('of several readings', () => {
  it('the most exact counts, whatever it is', () => {
    expect(methodOf([photo, counts, band])).toBe('fringes');
    expect(methodOf([{ ...photo, plusMinusLpi: 0.004 }, counts, band])).toBe('photo');
    expect(methodOf([photo, band])).toBe('band');
    expect(methodOf([])).toBeUndefined();
  });

  it('the person’s choice counts before it, where there is such a reading', () => {
    expect(methodOf([photo, counts, band], 'photo')).toBe('photo');
    expect(methodOf([counts, band], 'photo')).toBe('fringes');
  });

  it('a band at the end counts last: the pitch may lie beyond it', () => {
    expect(methodOf([photo, last])).toBe('photo');
    expect(methodOf([last])).toBe('band');
  });

  it('those that contradict each other are named', () => {
    expect(whichReading([photo, counts, band], undefined)?.against).toEqual([]);
    const off = { ...photo, plusMinusLpi: 0.03, viewingLpi: 60.05 };
    expect(whichReading([counts, off], undefined)?.against).toEqual([off]);
    expect(whichReading([counts, last], undefined)?.against).toEqual([]);
  });
});

describe('the advice', () => {
  it('is content with what the print allows', () => {
    expect(adviceOn(counts, strip, 0.03)).toBe('Exact enough: this print allows ±0.03 LPI.');
  });

  it('follows the method: a photo whose distance is not known asks for it', () => {
    expect(adviceOn(photo, strip, 0.03)).toBe(
      'This print needs ±0.03 LPI: type the camera distance. That makes it about ±0.004 LPI.',
    );
    // Typing helps no more: another photo, or a finer strip, and counting no better than that.
    const typed = { method: 'photo', viewingLpi: 59.95, plusMinusLpi: 0.012 } as const;
    expect(adviceOn(typed, strip, 0.01)).toMatch(/take the photo again.*finer strip/);
  });

  it('a band asks for counts, counts for more of them, and all of them for a finer strip', () => {
    expect(adviceOn(band, strip, 0.03)).toMatch(/count fringes in (all )?\d+ bands/);
    expect(adviceOn({ ...counts, plusMinusLpi: 0.05, counted: 3 }, strip, 0.03)).toMatch(
      /count fringes in (all )?\d+ bands/,
    );
    const all = adviceOn({ ...counts, plusMinusLpi: 0.05 }, strip, 0.03);
    expect(all).toMatch(/finer strip/);
    expect(all).not.toMatch(/count/);
  });
});

it('a new strip is read by whatever is most exact again', () => {
  const job = { ...newJob(), pitchStrip: { readBy: 'photo' as const } };
  expect(keepWoven(job, strip).pitchStrip?.readBy).toBeUndefined();
});
