/** The lens and the verdict of the Plan bench in a studio: fields, refusals, the eye, the sentence. */
import { act, fireEvent, screen } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { LensPanel } from '../../src/benches/plan/lens/LensPanel.tsx';
import { VerdictPanel } from '../../src/benches/plan/verdict/VerdictPanel.tsx';
import type { Job } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import type { User } from './in-studio.tsx';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const field = (name: string) => screen.getByRole('textbox', { name });
const eye = () => screen.getByRole('slider', { name: 'Eye' });

const type = async (user: User, name: string, text: string) => {
  await user.clear(field(name));
  await user.type(field(name), `${text}{Enter}`);
};
const setUp = () =>
  renderIn(
    studio,
    <>
      <VerdictPanel />
      <LensPanel />
    </>,
  ).user;

beforeEach(() => {
  studio = makeStudio();
});

describe('the rib radius', () => {
  it.each([
    ['0', /at least 0\.02 mm/],
    ['-0.3', /at least 0\.02 mm/],
    ['NaN', /not a number/],
    ['wide', /wide/],
    // 60 LPI: half the pitch is 25.4 / 120 = 0.2117 mm.
    ['0.2', /at least half the lens pitch/],
  ])('refuses %s at its field, and the job keeps what it had', async (text, why) => {
    const user = setUp();
    await type(user, 'Rib radius', text);
    expect(field('Rib radius')).toHaveAccessibleDescription(why);
    expect(field('Rib radius')).toBeInvalid();
    expect(job().lens.radiusMm).toBeUndefined();
  });

  it('is taken, undone by emptying, and then inferred: t (n − 1) / n = 0.84 × 0.5685 / 1.5685', async () => {
    const user = setUp();
    expect(field('Rib radius')).toHaveAccessibleDescription(/0\.304 mm/);
    await type(user, 'Rib radius', '320 µm');
    expect(job().lens.radiusMm).toBeCloseTo(0.32, 9);
    expect(screen.getByText('Radius, given')).toBeVisible();
    await user.clear(field('Rib radius'));
    await user.tab();
    expect(job().lens.radiusMm).toBeUndefined();
    expect(screen.getByText('Radius, inferred')).toBeVisible();
  });

  it('leaves nothing to undo when what was refused is only taken out again', async () => {
    const user = setUp();
    await type(user, 'Rib radius', 'abc');
    expect(field('Rib radius')).toBeInvalid();
    const before = studio.document.getState().past.length;
    await user.clear(field('Rib radius'));
    await user.tab();
    expect(field('Rib radius')).toBeValid();
    expect(studio.document.getState().past).toHaveLength(before);
  });
});

it('takes the supplier’s angle, and refuses one no lens has', async () => {
  const user = setUp();
  await type(user, "Supplier's angle", '47°');
  expect(job().lens.supplierAngleDeg).toBe(47);
  await type(user, "Supplier's angle", '200');
  expect(field("Supplier's angle")).toHaveAccessibleDescription(/at most 170/);
  expect(job().lens.supplierAngleDeg).toBe(47);
});

it('moves the eye by keys: to the right it sees later view slots (relation 3)', () => {
  setUp();
  const slot = () =>
    Number(/view slot (\d+) of 12/.exec(eye().getAttribute('aria-valuetext')!)![1]);
  expect(eye()).toHaveAttribute('aria-valuetext', expect.stringMatching(/^straight ahead/));
  fireEvent.keyDown(eye(), { key: 'PageUp' });
  const right = slot();
  expect(eye()).toHaveAttribute('aria-valuetext', expect.stringMatching(/^5° right/));
  fireEvent.keyDown(eye(), { key: 'PageDown' });
  fireEvent.keyDown(eye(), { key: 'PageDown' });
  expect(eye()).toHaveAttribute('aria-valuetext', expect.stringMatching(/^5° left/));
  expect(slot()).toBeLessThan(right);
});

describe('the verdict', () => {
  const change = (edit: (job: Job) => Job) => act(() => void studio.change('test', edit));
  it('is a sentence, and changes when the printer cannot lay two dots under a rib', async () => {
    setUp();
    expect(screen.getByText(/This 60 LPI lens suits/)).toBeVisible();
    change((old) => ({ ...old, printer: { carriageDpi: 100, feedDpi: 100 } }));
    expect(await screen.findByText(/does not suit this printer/)).toBeVisible();
    expect(screen.getAllByRole('listitem')[0]).toHaveTextContent(/Against.*no room for two frames/);
  });
  it('says which number to check when no rib can stand', async () => {
    setUp();
    change((old) => ({ ...old, lens: { ...old.lens, thicknessMm: 0.2 } }));
    expect(await screen.findByText(/Check the lens thickness first/)).toBeVisible();
    expect(screen.queryByRole('slider', { name: 'Eye' })).toBeNull();
  });
});
