/** Names from outside on the screen: each in its own direction, none able to turn that of the words around it. */
import { screen } from '@testing-library/react';
import { beforeEach, expect, test } from 'vitest';
import { Docket } from '../../src/benches/desk/Docket.tsx';
import { JobRow } from '../../src/benches/desk/job-list/JobRow.tsx';
import { FrameList } from '../../src/benches/frames/FrameList.tsx';
import { SequenceNotes } from '../../src/benches/frames/SequenceNotes.tsx';
import { listingOf } from '../../src/files/journal.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { reverseTold } from '../../src/studio/frames/told-edits.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { layOut, renderIn } from './in-studio.tsx';

const arabic = 'منارة 01.png';
const turned = 'frame\u202egnp.exe';
const seen = 'frame[U+202E]gnp.exe';

let studio: Studio;

beforeEach(() => {
  studio = makeStudio();
  const frames = [arabic, turned, 'pose_3.png'].map((name, place) => ({
    id: `id-${place}`,
    name,
    byteLength: 1,
    widthPx: 80,
    heightPx: 100,
    kind: 'PNG',
    sceneLinear: false,
    meanLight: 0.5,
  }));
  studio.document.getState().open({ ...newJob(), name: arabic, frames });
});

test('frames stand in the list apart, their marks of direction as code points', () => {
  layOut();
  renderIn(studio, <FrameList />);
  for (const name of [arabic, seen]) expect(screen.getByText(name).tagName).toBe('BDI');
  const labels = screen.getAllByRole('row').map((row) => row.getAttribute('aria-label'));
  // UAX 9: isolated in a label, where there are no elements.
  expect(labels.slice(0, 2)).toEqual([`1, \u2068${arabic}\u2069`, `2, ${seen}`]);
});

test('sentences on frames hold their names isolated and without marks of direction', () => {
  studio.work.setState({ missingOriginals: new Set(['id-0', 'id-1']) });
  studio.notes.problem('It is empty.', turned);
  renderIn(studio, <SequenceNotes />);
  const text = document.body.textContent;
  expect(text).toContain(`Missing originals: \u2068${arabic}\u2069, ${seen}.`);
  expect(text).toContain(`${seen}: It is empty.`);
  expect(text).not.toContain('\u202e');
  reverseTold(studio);
  expect(studio.work.getState().announced.said).toMatch(/pose_3\.png is now the first/);
  reverseTold(studio);
  expect(studio.work.getState().announced.said).toContain(`\u2068${arabic}\u2069 is now the first`);
});

test('jobs stand in the list apart', () => {
  const entry = listingOf('a', studio.document.getState().job, 0);
  const nothing = () => undefined;
  renderIn(
    studio,
    <JobRow
      entry={entry}
      isOpen={false}
      onOpen={nothing}
      onRename={nothing}
      onCopy={nothing}
      onDelete={nothing}
    />,
  );
  expect(screen.getByText(arabic).tagName).toBe('BDI');
  expect(screen.getByRole('button', { name: `Delete \u2068${arabic}\u2069` })).toBeVisible();
});

test('a field of words takes the direction of what is in it', () => {
  renderIn(studio, <Docket />);
  expect(screen.getByRole('textbox', { name: 'Job name' })).toHaveAttribute('dir', 'auto');
});
