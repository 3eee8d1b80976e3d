/** The look at a view, and over it, where something had to be invented. */
import { useEffect } from 'react';
import { useStore } from 'zustand';
import { sayInvented } from '../../../job/facts/made.ts';
import { useDocument, useView } from '../../../state/hooks.ts';
import { Button, Notice, Slider } from '../../../ui/index.ts';
import { FilledOverlay, ShowFilled } from './FilledOverlay.tsx';
import { choicesOf } from '../../../studio/frames/made/scene.ts';
import { lookKeyOf, renewLook } from '../../../studio/frames/made/look.ts';
import { setSynth, synthStore } from '../../../studio/frames/made/state.ts';
import styles from './synth.module.css';

export const LookView = () => {
  const job = useDocument((state) => state.job);
  const state = useStore(synthStore);
  const showFilled = useView((view) => view.showFilled);
  const { views } = choicesOf(job, state);
  const shown = Math.min(state.shown, views - 1);
  const key = lookKeyOf();
  useEffect(() => {
    if (key === undefined || synthStore.getState().look?.key === key) return;
    const timer = setTimeout(() => void renewLook(key), 250);
    return () => clearTimeout(timer);
  }, [key]);
  const { look } = state;
  if (key === undefined) return null;
  return (
    <div className={styles['look']}>
      {look !== undefined && 'fault' in look && look.key === key && (
        <Notice kind="problem" title="This view cannot be made" announce>
          {look.fault}
        </Notice>
      )}
      {look !== undefined && 'look' in look && (
        <figure className={styles['picture']} data-old={look.key !== key || undefined}>
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
        </figure>
      )}
      {look === undefined && <p className={styles['note']}>Making the look …</p>}
      <div className={styles['part']}>
        <Slider
          label="View looked at"
          min={1}
          max={views}
          step={1}
          value={shown + 1}
          valueText={`${shown + 1} of ${views}${shown === 0 ? ', leftmost' : shown === views - 1 ? ', rightmost' : ''}`}
          onChange={(value) => setSynth({ shown: value - 1 })}
        />
        <div className={styles['row']}>
          <Button onClick={() => setSynth({ shown: 0 })}>Leftmost</Button>
          <Button onClick={() => setSynth({ shown: views - 1 })}>Rightmost</Button>
          <ShowFilled />
        </div>
      </div>
    </div>
  );
};
