/** The Calibrate bench in a studio: names, scale before pitch, readings, proof and undo. */
import { screen } from '@testing-library/react';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import Calibrate from '../../src/benches/calibrate/index.tsx';
import { keepWoven, stripPlanOf, wovenOf } from '../../src/job/facts/pitch.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import type { User } from './in-studio.tsx';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const field = (name: string | RegExp) => screen.getByRole('textbox', { name });
const use = () => screen.getByRole('button', { name: 'Use this pitch' });
const best = () => screen.getByRole('combobox', { name: 'Best band' });

const type = async (user: User, name: string | RegExp, text: string) => {
  await user.clear(field(name));
  await user.type(field(name), `${text}{Enter}`);
};

const setUp = () => renderIn(studio, <Calibrate />).user;

beforeEach(() => {
  studio = makeStudio();
  // jsdom draws nothing.
  vi.spyOn(HTMLCanvasElement.prototype, 'getContext').mockReturnValue(null);
});

it('has the names that studio and scripts agree on', async () => {
  const user = setUp();
  for (const name of [
    'Strip centre',
    'Strip spread',
    'Reading distance',
    'Bar across',
    'Bar along',
  ])
    expect(field(name)).toBeVisible();
  expect(screen.getByRole('button', { name: 'Weave strip' })).toBeVisible();
  expect(best()).toHaveDisplayValue('Not read yet');
  expect(use()).toHaveAttribute('aria-disabled', 'true');
  expect(screen.getByText('Or photograph it')).toBeVisible();
  await user.click(screen.getByRole('radio', { name: 'More tests' }));
  expect(screen.getByRole('button', { name: 'Choose a scan' })).toBeVisible();
  expect(screen.queryByRole('button', { name: 'Weave strip' })).toBeNull();
  await user.click(screen.getByRole('radio', { name: 'Everything' }));
  expect(screen.getByRole('button', { name: 'Weave strip' })).toBeVisible();
});

describe('the strip’s fields', () => {
  it('begin as advised, take what is typed, and go back to the advice', async () => {
    const user = setUp();
    const advised = (field('Strip centre') as HTMLInputElement).value;
    // 60 LPI seen from 400 mm (relation 2): 60 / (1 + g₀ / 400) = 59.92.
    expect(Number(advised)).toBeCloseTo(59.92, 2);
    await type(user, 'Strip centre', '59.5 lpi');
    await type(user, 'Strip spread', '0.3');
    expect(job().pitchStrip).toMatchObject({ spreadLpi: 0.3 });
    expect(job().pitchStrip?.centreLpi).toBeCloseTo(59.5, 9);
    await user.click(screen.getByRole('button', { name: 'Take the advice' }));
    expect(field('Strip centre')).toHaveValue(advised);
  });

  it('refuse what no strip can be, beside the field', async () => {
    const user = setUp();
    await type(user, 'Bands', '8');
    expect(field('Bands')).toHaveAccessibleDescription(/odd number/);
    await type(user, 'Bands', '41');
    expect(screen.getByText(/room for \d+ bands, not 41/)).toBeVisible();
    expect(screen.getByRole('button', { name: 'Weave strip' })).toHaveAttribute(
      'aria-disabled',
      'true',
    );
  });

  it('say when the paper is too narrow for the print', () => {
    setUp();
    expect(screen.getByText('Narrower than the print')).toBeVisible();
  });
});

describe('the scale', () => {
  it('is caught with its factor and what to switch off, and bars the pitch', async () => {
    const user = setUp();
    await user.selectOptions(best(), screen.getAllByRole('option', { name: /^\d/ })[4]!);
    expect(use()).not.toHaveAttribute('aria-disabled');
    await type(user, 'Bar across', '97');
    expect(await screen.findByText(/came out at 97 %/)).toBeVisible();
    expect(screen.getByText(/fit to page/)).toBeVisible();
    expect(use()).toHaveAttribute('aria-disabled', 'true');
    await type(user, 'Bar across', '100.3');
    expect(
      await screen.findByText(/Across it came out at 100\.3 %\. Paper and feed do/),
    ).toBeVisible();
    expect(use()).not.toHaveAttribute('aria-disabled');
    await type(user, 'Bar across', '10 cm');
    await type(user, 'Bar along', '50');
    expect(await screen.findByText(/The scale is right/)).toBeVisible();
    expect(use()).not.toHaveAttribute('aria-disabled');
    await type(user, 'Bar along', '10 furlongs');
    expect(field('Bar along')).toHaveAccessibleDescription(/furlongs/);
  });
});

describe('the reading', () => {
  it('by the best band turns the job proved, and undo takes it back', async () => {
    const user = setUp();
    const option = screen.getAllByRole('option', { name: /^\d/ })[4]!;
    await user.selectOptions(best(), option);
    await user.click(use());
    expect(await screen.findByText(/is on the job sheet/)).toBeVisible();
    const { provedPitch } = job();
    expect(25.4 / (provedPitch?.viewingPitchMm ?? NaN)).toBeCloseTo(Number(option.textContent), 9);
    expect(provedPitch).toMatchObject({ method: 'band', readFromMm: 400, direction: 'upright' });
    expect(provedPitch?.plusMinusLpi).toBeGreaterThan(0);
    expect(studio.work.getState().pitchReadings).toHaveLength(1);
    studio.document.getState().undo();
    expect(job().provedPitch).toBeUndefined();
  });

  it('stays of the bands it was made on when the job’s advice moves', async () => {
    const user = setUp();
    await user.selectOptions(best(), screen.getAllByRole('option', { name: /^\d/ })[2]!);
    const before = screen.getAllByRole('option').map((option) => option.textContent);
    await user.click(use());
    await screen.findByText(/is on the job sheet/);
    expect(screen.getAllByRole('option').map((option) => option.textContent)).toEqual(
      expect.arrayContaining(before),
    );
  });

  it('is not said to be of a strip of any day until one is woven', async () => {
    const user = setUp();
    const read = () => screen.getByText(/bands from .* LPI/).textContent;
    expect(read()).toMatch(/, as the fields have it\.$/);
    await type(user, 'Bar across', '100');
    expect(read()).toMatch(/as the job stood when this was entered: none has been woven here yet/);
    expect(read()).not.toMatch(/\d{4}-\d{2}-\d{2}/);
    await user.clear(field('Bar across'));
    await user.keyboard('{Enter}');
    expect(read()).toMatch(/, as the fields have it\.$/);
  });

  it('names the day of a strip that was woven', () => {
    const plan = stripPlanOf(job(), 'mm');
    if (!plan.ok) throw new Error('no plan');
    studio.document.getState().open(keepWoven(job(), wovenOf(job(), plan.spec, '2026-11-20')));
    setUp();
    expect(screen.getByText(/the strip of 2026-11-20/)).toBeVisible();
  });

  it('allows a pitch between two, and warns at the last band', async () => {
    const user = setUp();
    await user.selectOptions(best(), screen.getAllByRole('option', { name: /^between/ })[1]!);
    expect(job().pitchStrip?.bestPlace).toBe(3);
    await user.selectOptions(best(), screen.getAllByRole('option', { name: /^\d/ })[0]!);
    expect(screen.getByText('That is the outermost band')).toBeVisible();
  });

  it('by fringes finds a pitch beyond the strip', async () => {
    const user = setUp();
    await user.click(screen.getByText('Or count fringes'));
    const bands = screen
      .getAllByRole('textbox', { name: /^Fringes in/ })
      .map((input) =>
        Number(/[\d.]+/.exec((input as HTMLInputElement).labels![0]!.textContent)![0]),
      );
    expect(job().pitchStrip?.woven).toBeUndefined(); // Kept once something is read of it.
    await type(user, `Fringes in ${bands[0]!.toFixed(3)}`, '0.4');
    const width = job().pitchStrip!.woven!.acrossMm / 25.4;
    const truth = bands.at(-1)! + 0.3;
    for (const band of [bands[0]!, bands[2]!, bands[5]!, bands.at(-1)!])
      await type(user, `Fringes in ${band.toFixed(3)}`, String((truth - band) * width));
    await user.click(use());
    await screen.findByText(/is on the job sheet/);
    expect(job().provedPitch?.method).toBe('fringes');
    expect(25.4 / job().provedPitch!.viewingPitchMm).toBeCloseTo(truth, 6);
    await type(user, `Fringes in ${bands[0]!.toFixed(3)}`, '-2');
    expect(field(`Fringes in ${bands[0]!.toFixed(3)}`)).toHaveAccessibleDescription(/no sign/);
  });
});
