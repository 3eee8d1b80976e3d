// @vitest-environment jsdom
/** The word of a change that was refused stands only beside that change. */
import { act, screen } from '@testing-library/react';
import { expect, test } from 'vitest';
import { LookOnlyBanner } from '../../src/benches/desk/job-list/JobsHost.tsx';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

test('a job that is taken over once more does not say that the change before was not done', () => {
  const studio = makeStudio();
  renderIn(studio, <LookOnlyBanner />);
  const lookOnly = (why: string | undefined) =>
    act(() => studio.document.setState({ lookOnly: why }));
  const name = (to: string) =>
    act(() => void studio.change('name', (job) => ({ ...job, name: to })));
  const refusal = () => screen.queryByText(/What you just did was not done/);
  lookOnly('Another tab has it.');
  expect(refusal()).toBeNull();
  name('Gulls');
  expect(refusal()).not.toBeNull();
  lookOnly(undefined);
  name('Terns');
  lookOnly('Another tab has it.');
  expect(screen.getByText(/Another tab has it\./)).toBeDefined();
  expect(refusal()).toBeNull();
  name('Herons');
  expect(refusal()).not.toBeNull();
  expect(studio.document.getState().job.name).toBe('Terns');
});
