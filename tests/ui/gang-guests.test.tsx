/** Jobs that share a lens sheet, where one of them is not kept on this computer. */
import { screen } from '@testing-library/react';
import { beforeEach, expect, it } from 'vitest';
import { GangNotices } from '../../src/benches/mount/gang/GangNotices.tsx';
import { GuestList } from '../../src/benches/mount/gang/GuestList.tsx';
import { useGangView } from '../../src/benches/mount/gang/use-gang.ts';
import { setGang } from '../../src/job/facts/gang.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;
beforeEach(() => {
  studio = makeStudio();
});

const Bench = ({ others }: { readonly others: ReadonlyMap<string, Job> }) => (
  <>
    <GuestList others={others} />
    <GangNotices view={useGangView(others)} others={others} />
  </>
);

const guests = () => studio.document.getState().job.gang?.guests;

it('names each that is not kept, lays the rest, and lays a kept namesake in its place', async () => {
  const card = { ...newJob(), print: { widthMm: 50, heightMm: 70, viewingDistanceMm: 400 } };
  const carried = setGang(card, {
    on: true,
    guests: [
      { jobId: 'far-1', copies: 3, name: 'Lighthouse' },
      { jobId: 'far-2', copies: 1 },
    ],
  });
  studio.document.getState().open(carried);
  const { user, rerender } = renderIn(studio, <Bench others={new Map()} />);
  expect(screen.getByText(/Left out: “Lighthouse”, a job without a name\./)).toBeVisible();
  expect(screen.getByRole('textbox', { name: 'Copies of Lighthouse, not kept here' })).toHaveValue(
    '3',
  );
  expect(screen.queryByRole('button', { name: /^Use the kept job/ })).toBeNull();

  // Its own file was opened: it is kept here now, under another id.
  rerender(<Bench others={new Map([['here', { ...card, name: 'Lighthouse' }]])} />);
  await user.click(screen.getByRole('button', { name: 'Use the kept job Lighthouse' }));
  expect(guests()).toEqual([
    { jobId: 'here', copies: 3, name: 'Lighthouse' },
    { jobId: 'far-2', copies: 1 },
  ]);
  expect(screen.getByText(/Left out: a job without a name\./)).toBeVisible();
  await user.click(
    screen.getByRole('button', { name: 'Take a job without a name, not kept here off this lens' }),
  );
  expect(screen.queryByText(/Left out/)).toBeNull();
  expect(guests()).toEqual([{ jobId: 'here', copies: 3, name: 'Lighthouse' }]);
});
