/** The printer's grid, the ribs and the way the page lies, against a table written by hand. */
import { describe, expect, it } from 'vitest';
import { setDensity, setPrinter, setRibs } from '../../../src/job/edits/consequences.ts';
import { mountFacts, mountSteps } from '../../../src/job/facts/mount/steps.ts';
import { gridOf } from '../../../src/job/facts/printer.ts';
import { sheetDensity } from '../../../src/job/facts/sheet.ts';
import { findings } from '../../../src/job/findings/all.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

type Lie = Job['printer']['fedFirst'];

const on = (ribs: Job['ribs'], carriageDpi: number, feedDpi: number, fedFirst?: Lie): Job => ({
  ...newJob(),
  ribs,
  printer: { carriageDpi, feedDpi, ...(fedFirst === undefined ? {} : { fedFirst }) },
});

/**
 * Drawn on paper: top edge first, a row of the page is printed by one pass of the head, so rows are the carriage's; a
 * side first, rows are the feed's. Upright ribs are crossed by rows, lying ones by columns.
 */
const table: readonly [
  ribs: Job['ribs'],
  carriage: number,
  feed: number,
  chosen: Lie,
  across: number,
  along: number,
  axis: 'carriage' | 'feed',
  fedFirst: 'top' | 'side',
][] = [
  ['upright', 1440, 720, 'top', 1440, 720, 'carriage', 'top'],
  ['upright', 1440, 720, 'side', 720, 1440, 'feed', 'side'],
  ['lying', 1440, 720, 'top', 720, 1440, 'feed', 'top'],
  ['lying', 1440, 720, 'side', 1440, 720, 'carriage', 'side'],
  ['upright', 720, 1440, 'top', 720, 1440, 'carriage', 'top'],
  ['upright', 720, 1440, 'side', 1440, 720, 'feed', 'side'],
  ['lying', 720, 1440, 'top', 1440, 720, 'feed', 'top'],
  ['lying', 720, 1440, 'side', 720, 1440, 'carriage', 'side'],
  ['upright', 720, 720, 'top', 720, 720, 'carriage', 'top'],
  ['upright', 720, 720, 'side', 720, 720, 'feed', 'side'],
  ['lying', 720, 720, 'top', 720, 720, 'feed', 'top'],
  ['lying', 720, 720, 'side', 720, 720, 'carriage', 'side'],
  // Left to the studio: turned only where that is finer.
  ['upright', 1440, 720, undefined, 1440, 720, 'carriage', 'top'],
  ['lying', 1440, 720, undefined, 1440, 720, 'carriage', 'side'],
  ['upright', 720, 1440, undefined, 1440, 720, 'feed', 'side'],
  ['lying', 720, 1440, undefined, 1440, 720, 'feed', 'top'],
  ['upright', 720, 720, undefined, 720, 720, 'carriage', 'top'],
  ['lying', 720, 720, undefined, 720, 720, 'feed', 'top'],
];

const rowOf = (
  { fedFirst, axis }: ReturnType<typeof gridOf>,
  { carriageDpi, feedDpi }: Job['printer'],
) => (fedFirst === 'top' ? [carriageDpi, feedDpi, axis] : [feedDpi, carriageDpi, axis]);

describe('the printer’s grid', () => {
  it.each(table)(
    'ribs %s on %i × %i, %s first: %i across and %i along',
    (ribs, carriage, feed, chosen, acrossDpi, alongDpi, axis, fedFirst) => {
      const job = on(ribs, carriage, feed, chosen);
      expect(gridOf(job)).toEqual({ acrossDpi, alongDpi, axis, fedFirst });
      // The file stands upright, so its density tags are the printer's as the page lies in it.
      const { horizontalDpi, verticalDpi } = sheetDensity(job);
      expect([horizontalDpi, verticalDpi, axis]).toEqual(rowOf(gridOf(job), job.printer));
    },
  );

  it('is what it was after the ribs have been laid and stood up again', () => {
    const job = on('upright', 1440, 720);
    const lying = setRibs(job, 'lying');
    expect(lying.printer).toEqual(job.printer);
    expect(gridOf(lying)).toMatchObject({ acrossDpi: 1440, alongDpi: 720 });
    expect(setRibs(lying, 'upright')).toEqual(job);
  });
});

describe('dots typed across and along the ribs', () => {
  it('stay as they were typed, in whichever order', () => {
    for (const ribs of ['upright', 'lying'] as const)
      for (const [across, along] of [
        [600, 600],
        [1440, 360],
        [360, 1440],
      ] as const) {
        const start = on(ribs, 720, 720);
        const one = setDensity(setDensity(start, { acrossDpi: across }), { alongDpi: along });
        const other = setDensity(setDensity(start, { alongDpi: along }), { acrossDpi: across });
        for (const job of [one, other])
          expect(gridOf(job)).toMatchObject({ acrossDpi: across, alongDpi: along });
      }
  });

  it('keep the edge only where the studio would turn the page', () => {
    expect(setDensity(newJob(), { acrossDpi: 360 }).printer.fedFirst).toBe('top');
    expect(setDensity(newJob(), { acrossDpi: 1440 }).printer.fedFirst).toBeUndefined();
    const square = setDensity(setDensity(newJob(), { acrossDpi: 360 }), { alongDpi: 360 });
    expect(square.printer.fedFirst).toBeUndefined();
    const chosen = setPrinter(on('upright', 1440, 720), { fedFirst: 'top' });
    expect(setDensity(chosen, { alongDpi: 360 }).printer.fedFirst).toBe('top');
  });

  it('are told of the finer grid that lies along the ribs, and of the turn that mends it', () => {
    const told = (job: Job) =>
      findings(job, { prepareFaults: new Map(), arrivalNotes: [] }).find(
        ({ id }) => id === 'finer-grid-turned',
      );
    expect(told(on('upright', 720, 1440))).toBeUndefined();
    const kept = on('upright', 720, 1440, 'top');
    const action = told(kept)?.action;
    if (action === undefined || !('edit' in action)) throw new Error('has no remedy');
    expect(gridOf(action.edit(kept))).toMatchObject({ acrossDpi: 1440, fedFirst: 'side' });
  });
});

describe('the checklist', () => {
  const say = (job: Job) => {
    const steps = mountSteps(job, { unit: 'mm', fileType: 'png' });
    return new Map(steps.map(({ id, title, text }) => [id, `${title} ${text}`]));
  };

  it('says which edge goes in first, and the driver’s setting by the printer’s own axes', () => {
    const turned = on('lying', 1440, 720);
    expect(say(turned).get('way-round')).toMatch(/with a side first\..*quarter/);
    expect(say(turned).get('grid')).toMatch(
      /1,?440 dpi along the carriage and 720 along the feed.*1,?440 dpi across the ribs/,
    );
    expect(new Map(mountFacts(turned, 'mm')).get('Fed first')).toBe('a side');
    const upright = on('upright', 1440, 720);
    expect(say(upright).get('way-round')).toMatch(/with its top edge first\./);
    expect(say(upright).get('way-round')).not.toMatch(/quarter/);
  });
});
