/** Exactness and depth on the Plan bench in a studio. */
import { fireEvent, screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { DepthPanel } from '../../src/benches/plan/depth/DepthPanel.tsx';
import { ExactnessPanel } from '../../src/benches/plan/exactness/ExactnessPanel.tsx';
import { findings } from '../../src/job/findings/all.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import type { User } from './in-studio.tsx';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const undo = () => studio.document.getState().undo();
const field = (name: string) => screen.getByRole('textbox', { name });
const button = (name: string | RegExp) => screen.getByRole('button', { name });
const figure = (name: string) => screen.getByText(name, { exact: true }).closest('summary');
const ids = () =>
  findings(job(), { prepareFaults: new Map(), arrivalNotes: [], pitchReadings: [] }).map(
    ({ id }) => id,
  );

const type = async (user: User, name: string, text: string) => {
  await user.clear(field(name));
  await user.type(field(name), `${text}{Enter}`);
};

beforeEach(() => {
  studio = makeStudio();
});

describe('exactness', () => {
  it('follows relation 7 for this print: 0.25 / 8 in, 0.25 × 25.4 / 60 mm', () => {
    renderIn(studio, <ExactnessPanel />);
    expect(figure('Pitch exact to')).toHaveTextContent('±0.0313 LPI');
    expect(figure('Square to')).toHaveTextContent('0.106 mm');
    expect(figure('Centred to')).toHaveTextContent('±0.106 mm');
    // 0.25 / 0.1 LPI = 2.5 in.
    expect(figure('Widest print, as the pitch is known now')).toHaveTextContent('63.5 mm across');
    // 0.001 × 60 × 8.
    expect(figure('Stretch slides it by')).toHaveTextContent('0.48 of a zone');
  });

  it('takes budget, doubt and stretch in their units, and undo takes them back', async () => {
    const { user } = renderIn(studio, <ExactnessPanel />);
    await type(user, 'Budget', '0.5 zones');
    await type(user, 'Pitch known to', '0.05 lpi');
    await type(user, 'Stretch', '0.2 %');
    expect(job().exactness).toEqual({
      budgetZones: 0.5,
      pitchUnsureLpi: 0.05,
      stretchShare: 0.002,
    });
    expect(figure('Widest print, as the pitch is known now')).toHaveTextContent('254 mm across');
    undo();
    undo();
    undo();
    expect(job().exactness).toBeUndefined();
  });

  it.each([
    ['Budget', '0'],
    ['Budget', 'NaN'],
    ['Pitch known to', '-1'],
    ['Stretch', '80 %'],
    ['Stretch', 'some'],
  ])('refuses %s of %s at its field', async (name, text) => {
    const { user } = renderIn(studio, <ExactnessPanel />);
    await type(user, name, text);
    expect(field(name)).toBeInvalid();
    expect(job().exactness).toBeUndefined();
  });

  it('has its plots in figures, this print among them', () => {
    renderIn(studio, <ExactnessPanel />);
    const table = screen.getByRole('table', { name: /by print size/, hidden: true });
    expect(within(table).getByRole('rowheader', { name: '203.2', hidden: true })).toBeTruthy();
    expect(screen.getByRole('img', { name: /allows ±0\.031 LPI/ })).toBeInTheDocument();
  });
});

describe('depth', () => {
  // Relation 6, 60 LPI, t 0.84, n 1.5685, N 12, D 400, γ 1. The bench of tests/golden traces g' = 0.4983 mm:
  // r = N g' / D = 0.014949; behind D r / (1 − r) = 6.07 mm, in front D r / (1 + r) = 5.89 mm.
  it('ends where a point moves one rib per view', () => {
    renderIn(studio, <DepthPanel />);
    expect(figure('Sharp')).toHaveTextContent('5.9 mm in front … 6.1 mm behind');
    // 63 mm × 12 views over a zone of 339.8 mm.
    expect(figure('Views between the eyes')).toHaveTextContent('2.22');
  });

  it('takes things by name and place, says what becomes of them, and offers the gain that fits', async () => {
    const { user } = renderIn(studio, <DepthPanel />);
    await user.click(button('Add a thing'));
    await type(user, 'Name of thing 1', 'Kingfisher');
    await type(user, 'Kingfisher: depth', '4 cm in front');
    expect(job().depthMarks).toEqual([{ name: 'Kingfisher', zMm: -40 }]);
    const pin = () => screen.getByRole('slider', { name: 'Depth of Kingfisher' });
    expect(pin()).toHaveAttribute('aria-valuetext', 'Kingfisher, 40 mm in front, breaks up');
    expect(ids()).toContain('scene-too-deep');
    await user.click(button(/^Set depth gain to [\d.]+: all sharp/));
    // γ = N g' (D − 40) / (D · 40) = 0.1345, rounded down to three figures.
    expect(job().depthGain).toBeCloseTo(0.134, 9);
    expect(pin()).toHaveAttribute('aria-valuetext', 'Kingfisher, 40 mm in front, sharp');
    expect(ids()).not.toContain('scene-too-deep');
    undo();
    expect(job().depthGain).toBeUndefined();
    await user.click(button('Remove Kingfisher'));
    expect(job().depthMarks).toEqual([]);
    undo();
    expect(job().depthMarks).toHaveLength(1);
  });

  it('moves a thing by keys, quick presses as one step', async () => {
    const { user } = renderIn(studio, <DepthPanel />);
    await user.click(button('Add a thing'));
    const before = job().depthMarks?.[0]?.zMm ?? NaN;
    const pin = screen.getByRole('slider', { name: /^Depth of Thing 1/ });
    for (const key of ['ArrowRight', 'ArrowUp', 'PageUp']) fireEvent.keyDown(pin, { key });
    expect(job().depthMarks?.[0]?.zMm).toBeGreaterThan(before);
    undo();
    expect(job().depthMarks?.[0]?.zMm).toBe(before);
  });

  it('warns of what strains the eyes, and of a thing behind the eye', async () => {
    const { user } = renderIn(studio, <DepthPanel />);
    await user.click(button('Add a thing'));
    // Relation 6: 63 / 400 − 63 / 340 is 1.6°.
    await type(user, 'Thing 1: depth', '60 mm in front');
    expect(screen.getByText('Strong depth strains the eyes')).toBeVisible();
    await type(user, 'Thing 1: depth', '500 mm in front');
    expect(screen.getByText(/Behind the eye/)).toBeVisible();
  });

  it.each([
    ['Depth gain', '0'],
    ['Depth gain', 'deep'],
    ['Eyes apart', '10 mm'],
    ['Thing 1: depth', 'near'],
    ['Thing 1: depth', 'NaN'],
  ])('refuses %s of %s at its field', async (name, text) => {
    const { user } = renderIn(studio, <DepthPanel />);
    await user.click(button('Add a thing'));
    const before = job();
    await type(user, name, text);
    expect(field(name)).toBeInvalid();
    expect(job()).toEqual(before);
  });

  it('says that lying ribs show no depth', () => {
    studio.document.getState().open({ ...newJob(), ribs: 'lying' });
    renderIn(studio, <DepthPanel />);
    expect(screen.getByText('Lying ribs show no depth')).toBeVisible();
    expect(screen.queryByRole('textbox', { name: 'Eyes apart' })).toBeNull();
  });
});
