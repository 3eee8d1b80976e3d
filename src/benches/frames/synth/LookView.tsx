/** The look at a view, and over it, where something had to be invented. */
import { useEffect } from 'react';
import { useStore } from 'zustand';
import { sayInvented } from '../../../job/facts/made.ts';
import { lookKeyOf, renewLook } from '../../../studio/frames/made/look.ts';
import { choicesOf } from '../../../studio/frames/made/scene.ts';
import { Button, Columns, Notice, Prose, Row, Slider, Stack } from '../../../ui/index.ts';
import { useJob, useStudio, useView } from '../../studio.ts';
import { FilledOverlay, ShowFilled } from './FilledOverlay.tsx';
import styles from './synth.module.css';

export const LookView = () => {
  const studio = useStudio();
  const { made } = studio;
  const job = useJob();
  const state = useStore(made.store);
  const showFilled = useView((view) => view.showFilled);
  const { views } = choicesOf(job, state);
  const shown = Math.min(state.shown, views - 1);
  const key = lookKeyOf(studio);
  useEffect(() => {
    if (key === undefined || studio.made.store.getState().look?.key === key) return undefined;
    const halt = new AbortController();
    const timer = setTimeout(() => void renewLook(studio, key, halt.signal), 250);
    return () => {
      clearTimeout(timer);
      halt.abort();
    };
  }, [studio, key]);
  const { look } = state;
  if (key === undefined) return null;
  return (
    <Columns least={16} gap={4}>
      {look !== undefined && 'fault' in look && look.key === key && (
        <Notice kind="problem" title="This view cannot be made" announce>
          {look.fault}
        </Notice>
      )}
      {look !== undefined && 'look' in look && (
        <Stack as="figure" gap={2} data-old={look.key !== key || undefined}>
          <div className={styles['stack']}>
            <img
              src={look.look.picture}
              alt={`View ${shown + 1} of ${views}, made from the picture and its depths`}
            />
            {showFilled && <FilledOverlay places={look.look.filled} />}
          </div>
          <figcaption>
            {look.key === key
              ? `View ${shown + 1}: ${sayInvented(look.look.invented)}${look.look.invented > 0 && showFilled ? ', laid over in magenta and black' : ''}.`
              : 'Making the look …'}
          </figcaption>
        </Stack>
      )}
      {look === undefined && <Prose large>Making the look …</Prose>}
      <Stack>
        <Slider
          label="View looked at"
          min={1}
          max={views}
          step={1}
          value={shown + 1}
          valueText={`${shown + 1} of ${views}${shown === 0 ? ', leftmost' : shown === views - 1 ? ', rightmost' : ''}`}
          onChange={(value) => made.set({ shown: value - 1 })}
        />
        <Row gap="2 4">
          <Button onClick={() => made.set({ shown: 0 })}>Leftmost</Button>
          <Button onClick={() => made.set({ shown: views - 1 })}>Rightmost</Button>
          <ShowFilled />
        </Row>
      </Stack>
    </Columns>
  );
};
