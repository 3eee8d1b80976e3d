/** With inches chosen nothing that is measured stays in millimetres; relations may. 1 in is 25.4 mm by definition (international yard, 1959). */
import type { ReactElement } from 'react';
import { screen } from '@testing-library/react';
import { beforeEach, expect, it } from 'vitest';
import { GangFigures } from '../../src/benches/mount/gang/GangFigures.tsx';
import { GangFields } from '../../src/benches/mount/gang/GangFields.tsx';
import { GangNotices } from '../../src/benches/mount/gang/GangNotices.tsx';
import { useGangView } from '../../src/benches/mount/gang/use-gang.ts';
import { PageDrawing } from '../../src/benches/mount/page/PageDrawing.tsx';
import { TilesPanel } from '../../src/benches/mount/tiles/TilesPanel.tsx';
import { factsOf } from '../../src/job/facts/trial-rows.ts';
import { TrialsPanel } from '../../src/benches/mend/trials/TrialsPanel.tsx';
import { LensPanel } from '../../src/benches/plan/lens/LensPanel.tsx';
import { MoneyPanel } from '../../src/benches/plan/money/MoneyPanel.tsx';
import { DocketFigures } from '../../src/benches/desk/DocketFigures.tsx';
import { RigFigures } from '../../src/benches/shoot/RigFigures.tsx';
import { setGang } from '../../src/job/facts/gang.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { starterShelves } from '../../src/materials/starters.ts';
import { setTiles } from '../../src/job/facts/tiles.ts';
import { addGoodTrial, trialsOf } from '../../src/job/facts/trials.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const Gang = () => {
  const none = new Map<string, Job>();
  const view = useGangView(none);
  return (
    <>
      <GangFields />
      <GangFigures view={view} />
      <GangNotices view={view} others={none} />
    </>
  );
};

/** 8 × 10 in, seen from 20 in. */
const inInches = (): Job => ({
  ...newJob(),
  print: { widthMm: 203.2, heightMm: 254, viewingDistanceMm: 508 },
});
const tried = (): Job => addGoodTrial(inInches(), { id: 't1', on: '2026-11-20', file: undefined });
const small = (): Job => ({
  ...inInches(),
  print: { widthMm: 50.8, heightMm: 76.2, viewingDistanceMm: 508 },
});

beforeEach(() => {
  studio = makeStudio();
  studio.shelves.getState().open(starterShelves());
  studio.view.getState().set({ units: 'in' });
});

/** Every relation is a paragraph of its own, by the design's formula in millimetres. */
const wordsOf = (root: HTMLElement): string => {
  const copy = root.cloneNode(true) as HTMLElement;
  for (const relation of copy.querySelectorAll('details > div > p:first-child')) relation.remove();
  const walker = document.createTreeWalker(copy, NodeFilter.SHOW_TEXT);
  const words: string[] = [];
  while (walker.nextNode() !== null) words.push(walker.currentNode.textContent ?? '');
  // Lenses of cameras are sold by their millimetres, wherever inches are used.
  return words.join(' | ').replace('90 mm on 36 mm', '');
};

const Rig = () => <RigFigures job={studio.document.getState().job} />;

it.each<[string, ReactElement, Job]>([
  ['the lens', <LensPanel />, inInches()],
  ['money', <MoneyPanel />, inInches()],
  ['the trials', <TrialsPanel />, tried()],
  ['the page', <PageDrawing />, inInches()],
  ['several prints', <Gang />, setGang(small(), { on: true, edgeMm: 5, between: 'picture' })],
  [
    'tiles',
    <TilesPanel />,
    setTiles(inInches(), { on: true, lensAcrossMm: 127, lensAlongMm: 127 }),
  ],
  ['the job sheet', <DocketFigures />, inInches()],
  ['the rig', <Rig />, { ...inInches(), rig: { unit: 'in' } }],
])('shows %s without a millimetre', (_name, panel, job) => {
  studio.document.getState().open(job);
  const { container } = renderIn(studio, panel);
  const words = wordsOf(container);
  expect(words).toMatch(/\d in\b|, in\b/);
  expect(words).not.toMatch(/\bmm\b/);
});

it('gives a trial’s sizes in the chosen unit', () => {
  const [trial] = trialsOf(tried());
  if (trial === undefined) throw new Error('no trial');
  const facts = (units: 'mm' | 'in') =>
    Object.fromEntries(factsOf(trial, units).map(({ name, value }) => [name, value]));
  expect(facts('in')).toMatchObject({ 'Print, in': '8 × 10', 'Viewing distance, in': '20' });
  expect(facts('mm')).toMatchObject({ 'Print, mm': '203.2 × 254', 'Viewing distance, mm': '508' });
});

it('moves the print by a round part of an inch a key', () => {
  studio.document.getState().open(inInches());
  renderIn(studio, <PageDrawing />);
  expect(screen.getByText(/arrow keys \(0\.05 in; with Shift 0\.5 in\)/)).toBeVisible();
});

it('writes what lies left of the middle with a minus, on the axis as elsewhere', () => {
  studio.document.getState().open(inInches());
  const { container } = renderIn(studio, <LensPanel />);
  const ticks = [...container.querySelectorAll('svg[role="img"] text')].map(
    ({ textContent }) => textContent,
  );
  expect(ticks.filter((tick) => /^−\d/.test(tick)).length).toBeGreaterThan(3);
  expect(ticks.filter((tick) => /^-/.test(tick))).toEqual([]);
});
