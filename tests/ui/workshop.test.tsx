/** The Workshop in a studio, and what its prices make of a print on Plan. */
import { act, fireEvent, screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { MoneyPanel } from '../../src/benches/plan/money/MoneyPanel.tsx';
import { PricesPanel } from '../../src/benches/workshop/PricesPanel.tsx';
import { ShelvesPanel } from '../../src/benches/workshop/ShelvesPanel.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import { starterShelves } from '../../src/materials/starters.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import type { User } from './in-studio.tsx';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const shelves = () => studio.shelves.getState().shelves;
const button = (name: string | RegExp) => screen.getByRole('button', { name });
const field = (name: string) => screen.getByRole('textbox', { name });
const entry = (name: string) => {
  const item = screen.getByRole('heading', { name: new RegExp(`^${name}`) }).closest('li');
  if (item === null) throw new Error(`${name} stands in no list`);
  return within(item);
};

/** jsdom's files cannot be read as text. */
const fileOf = (name: string, text: string) =>
  Object.assign(new File([text], name, { type: 'application/json' }), {
    text: () => Promise.resolve(text),
  });

const type = async (user: User, name: string, text: string) => {
  await user.clear(field(name));
  await user.type(field(name), `${text}{Enter}`);
};

beforeEach(() => {
  studio = makeStudio();
  studio.shelves.getState().open(starterShelves());
});

describe('the shelves', () => {
  it('take a new lens, its fields in any unit, and refuse what cannot be', async () => {
    const { user } = renderIn(studio, <ShelvesPanel />);
    await user.click(button('Add a lens'));
    await type(user, 'Name', 'Kingfisher sheet');
    await type(user, 'Pitch', '50 lpi');
    await type(user, 'Width across the ribs', '12 in');
    await type(user, 'Radius of a rib', '0.1 mm');
    expect(field('Radius of a rib')).toHaveAccessibleDescription(/half the lens pitch/);
    const added = shelves().lenses.at(-1);
    expect(added).toMatchObject({ name: 'Kingfisher sheet' });
    expect(added?.widthMm).toBeCloseTo(304.8, 9);
    expect(added?.pitchMm).toBeCloseTo(0.508, 12);
    expect(added?.radiusMm).toBeUndefined();
  });

  it('lay an entry into the job, which undo takes back, and say so', async () => {
    const { user } = renderIn(studio, <ShelvesPanel />);
    const before = job();
    await user.click(entry('Generic 40 LPI').getByRole('button', { name: 'Use for this job' }));
    expect(job().lens.pitchMm).toBeCloseTo(25.4 / 40, 12);
    expect(screen.getByText(/is used for this job/)).toBeVisible();
    expect(entry('Generic 40 LPI').getByText('in use')).toBeVisible();
    studio.document.getState().undo();
    expect(job()).toEqual(before);
  });

  it('put the job’s lens on the shelf, copy, remove and undo', async () => {
    const { user } = renderIn(studio, <ShelvesPanel />);
    await user.click(button(/Put this job’s lens/));
    expect(shelves().lenses.at(-1)?.pitchMm).toBe(newJob().lens.pitchMm);
    await user.click(entry('Generic 75 LPI').getByRole('button', { name: 'Copy' }));
    expect(shelves().lenses.map(({ name }) => name)).toContain('Generic 75 LPI, nominal (copy)');
    const count = shelves().lenses.length;
    await user.click(entry('Generic 40 LPI').getByRole('button', { name: 'Remove' }));
    expect(shelves().lenses).toHaveLength(count - 1);
    await user.click(button(/Undo removing Generic 40 LPI/));
    expect(shelves().lenses).toHaveLength(count);
  });

  it('are empty with a way back to the starters', async () => {
    studio.shelves.getState().open({ ...starterShelves(), lenses: [] });
    const { user } = renderIn(studio, <ShelvesPanel />);
    await user.click(button('Bring the starters back'));
    expect(shelves().lenses).toEqual(starterShelves().lenses);
  });

  it('import what is new, and refuse another file by its name', async () => {
    const { user } = renderIn(studio, <ShelvesPanel />);
    const input = screen.getByLabelText('Import shelves', { selector: 'input' });
    const [lens] = starterShelves().lenses;
    const text = JSON.stringify({
      ...starterShelves(),
      lenses: [{ ...lens, id: 'x', name: 'The shop’s sheet' }],
    });
    await user.upload(input, fileOf('gulls.json', 'not shelves'));
    expect(await screen.findByText('gulls.json was not imported')).toBeVisible();
    expect(screen.getByText(/not JSON text/)).toBeVisible();
    expect(shelves()).toEqual(starterShelves());
    await user.upload(input, fileOf('shop.json', text));
    expect(await screen.findByText('1 entry imported from shop.json')).toBeVisible();
    expect(shelves().lenses.at(-1)?.name).toBe('The shop’s sheet');
  });
});

it('shelves take a file that is dragged in', async () => {
  renderIn(studio, <ShelvesPanel />);
  const dataTransfer = { types: ['Files'], files: [fileOf('gulls.json', '{"kind":"gulls"}')] };
  fireEvent.dragOver(screen.getByRole('list'), { dataTransfer });
  fireEvent.drop(screen.getByRole('list'), { dataTransfer });
  expect(await screen.findByText('gulls.json was not imported')).toBeVisible();
});

describe('money', () => {
  const figure = (name: string) => screen.getByText(name, { exact: true }).closest('summary');

  it('is not known until prices are, and then adds up', async () => {
    const { user } = renderIn(
      studio,
      <>
        <PricesPanel />
        <MoneyPanel />
      </>,
    );
    expect(figure('One print')).toHaveTextContent('not known');
    await type(user, 'Currency mark', 'shells');
    await type(user, 'Price of a lens sheet', '10');
    // The print, 203.2 × 254 mm, comes out of 300 × 400 mm once.
    expect(figure('Lens for a print')).toHaveTextContent('10.00 shells');
    expect(figure('One print')).toHaveTextContent('10.00 shells and more');
    await type(user, 'Price of a sheet of paper', '0.5');
    await type(user, 'Price of ink for a square metre', '20');
    // 20 × 0.2032 × 0.254 = 1.0323 for the ink.
    expect(figure('One print')).toHaveTextContent('11.53 shells');
    await user.click(button('One print more'));
    await user.click(button('One print more'));
    expect(figure('Spent so far')).toHaveTextContent('23.06 shells');
    await user.click(button('One print less'));
    expect(job().stock?.trials).toBe(1);
  });

  it('keeps what a cut leaves, and offers it to the next print that fits', async () => {
    const { user } = renderIn(studio, <MoneyPanel />);
    await user.selectOptions(screen.getByLabelText('Lens from the shelf'), [
      screen.getByRole('option', { name: 'Generic 60 LPI, nominal' }),
    ]);
    expect(screen.queryByText(/This print fits on a piece/)).toBeNull();
    // One print of 203.2 × 254 mm out of 300 × 400 mm, and 3 mm for the blade.
    await user.click(button('Keep it in the Workshop'));
    const left = shelves().lenses.filter(({ offcutOf }) => offcutOf !== undefined);
    expect(left.map(({ widthMm, heightMm }) => [widthMm, heightMm])).toEqual([
      [expect.closeTo(93.8, 9), 400],
      [expect.closeTo(203.2, 9), 143],
    ]);
    act(() => {
      studio.change('size', (now) => ({
        ...now,
        print: { ...now.print, widthMm: 200, heightMm: 140 },
      }));
    });
    await user.click(button('Use the offcut'));
    expect(job().stock?.lensId).toBe(left[1]?.id);
    expect(figure('Lens for a print')).toHaveTextContent('0.00');
  });

  it('takes the lens that is chosen into the job, and says that the proof is let go', async () => {
    studio.document
      .getState()
      .open({ ...newJob(), provedPitch: { viewingPitchMm: 0.42, readFromMm: 400 } });
    const { user } = renderIn(studio, <MoneyPanel />);
    expect(screen.queryByText(/pitch is nominal again/)).toBeNull();
    await user.selectOptions(
      screen.getByRole('combobox', { name: 'Lens from the shelf' }),
      'Generic 75 LPI, nominal',
    );
    expect(job().lens.pitchMm).toBeCloseTo(25.4 / 75, 12);
    expect(job().provedPitch).toBeUndefined();
    expect(screen.getByText(/pitch is nominal again/)).toBeVisible();
  });

  it('says outright what is not counted', () => {
    renderIn(studio, <MoneyPanel />);
    expect(
      screen.getByText(
        'Not counted: the lens sheet has no price yet; the paper has no price yet; the ink has no price yet.',
        { selector: 'section > p' },
      ),
    ).toBeVisible();
  });

  it('refuses a price below nothing at its field', async () => {
    const { user } = renderIn(studio, <MoneyPanel />);
    await type(user, 'Price of a lens sheet', '-3');
    expect(field('Price of a lens sheet')).toBeInvalid();
    expect(shelves()).toEqual(starterShelves());
  });

  it('adds up hours, and says for what none are given', async () => {
    const { user } = renderIn(studio, <MoneyPanel />);
    await type(user, 'Hours for a print', '1.5 h');
    await type(user, 'Prints made so far', '4');
    await user.click(button('One strip more'));
    expect(figure('Hours so far')).toHaveTextContent('6 h and more');
    expect(screen.getByText(/hours for a pitch strip are not given/)).toBeInTheDocument();
  });
});
