/** Over and under the tilt proof: where the print is cut, and the caution, whole once for each job. */
import { screen } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { CautionOnce } from '../../src/benches/desk/CautionOnce.tsx';
import { TrimLine, TrimWords } from '../../src/benches/weave/TrimLine.tsx';
import { setPage } from '../../src/job/facts/page.ts';
import { cautionWords } from '../../src/job/words/cautions.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;
beforeEach(() => {
  studio = makeStudio();
});

describe('the trim line', () => {
  const drawn = () => screen.queryByTestId('trim-line');
  const print = { ...newJob().print, widthMm: 200, heightMm: 100 };

  it('stands where the trim lies in the woven picture, and the bleed is greyed around it', () => {
    studio.document.getState().open(setPage({ ...newJob(), print }, { on: true, bleedMm: 3 }));
    renderIn(
      studio,
      <>
        <TrimLine />
        <TrimWords />
      </>,
    );
    expect(drawn()).toHaveAttribute('viewBox', '0 0 206 106');
    const [bled, cut] = drawn()?.querySelectorAll('path') ?? [];
    expect(cut).toHaveAttribute('d', 'M3 3h200v100h-200Z');
    // All of the picture but what lies within the trim.
    expect(bled).toHaveAttribute('d', 'M0 0h206v106H0ZM3 3h200v100h-200Z');
    expect(bled).toHaveAttribute('fill-rule', 'evenodd');
    expect(screen.getByText(/3 mm of bleed/)).toBeTruthy();
  });

  it('is not drawn without bleed, nor while the page is off', () => {
    studio.document.getState().open(setPage({ ...newJob(), print }, { on: true, bleedMm: 0 }));
    const { unmount } = renderIn(studio, <TrimLine />);
    expect(drawn()).toBeNull();
    unmount();
    studio.document.getState().open({ ...newJob(), print });
    renderIn(studio, <TrimLine />);
    expect(drawn()).toBeNull();
  });
});

describe('a caution', () => {
  const caution = <CautionOnce bench="weave" kinds={['flashing', 'depth']} />;
  const folded = () => screen.queryByText(/^Caution: Flashing pictures/);

  it('is whole until it was read, then a line in its place that opens', async () => {
    const { user } = renderIn(studio, caution);
    expect(folded()).toBeNull();
    await user.click(screen.getByRole('button', { name: 'I have read it' }));
    expect(folded()?.closest('details')).not.toHaveAttribute('open');
    for (const kind of ['flashing', 'depth'] as const)
      expect(screen.getByText(cautionWords[kind].say)).toBeInTheDocument();
  });

  it('is whole again for the next job', async () => {
    const { user, unmount } = renderIn(studio, caution);
    await user.click(screen.getByRole('button', { name: 'I have read it' }));
    unmount();
    studio.document.setState({ jobId: 'another' });
    renderIn(studio, caution);
    expect(folded()).toBeNull();
    expect(screen.getByRole('button', { name: 'I have read it' })).toBeTruthy();
  });
});
