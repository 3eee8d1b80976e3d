/** Renaming a job in the list: the field takes the typing at once, and gives the focus back. */
import { screen } from '@testing-library/react';
import { expect, test, vi } from 'vitest';
import { JobRow } from '../../src/benches/desk/job-list/JobRow.tsx';
import { listingOf } from '../../src/files/journal.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

const setUp = () => {
  const studio = makeStudio();
  const entry = listingOf('a', studio.document.getState().job, 0);
  const onRename = vi.fn();
  const nothing = () => undefined;
  const { user } = renderIn(
    studio,
    <JobRow
      entry={entry}
      isOpen={false}
      onOpen={nothing}
      onRename={onRename}
      onCopy={nothing}
      onDelete={nothing}
    />,
  );
  return { user, onRename, button: screen.getByRole('button', { name: /^Rename/ }) };
};

test('takes the typing at once, in place of the old name', async () => {
  const { user, onRename, button } = setUp();
  await user.click(button);
  expect(screen.getByRole('textbox', { name: /^New name/ })).toHaveFocus();
  await user.keyboard('Sea gate{Enter}');
  expect(onRename).toHaveBeenCalledExactlyOnceWith('Sea gate');
  expect(screen.queryByRole('textbox')).toBeNull();
  expect(button).toHaveFocus();
});

test('Escape leaves the name, and the window open', async () => {
  const { user, onRename, button } = setUp();
  await user.click(button);
  const onKey = vi.fn<(event: KeyboardEvent) => void>();
  addEventListener('keydown', onKey);
  await user.keyboard('Sea{Escape}');
  removeEventListener('keydown', onKey);
  expect(onKey.mock.lastCall?.[0].defaultPrevented).toBe(true);
  expect(onRename).not.toHaveBeenCalled();
  expect(screen.queryByRole('textbox')).toBeNull();
  expect(button).toHaveFocus();
});
