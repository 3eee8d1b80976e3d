/** Frames of a clip spread over its time; those outside the stretch that is chosen are dimmed. */
import { useCallback } from 'react';
import type { ClipFacts, ClipLook } from '../../../contract/clip.ts';
import type { ClipChoice } from '../../../studio/frames/clips/state.ts';
import { useAddress } from '../../desk/use-address.ts';
import styles from './clip.module.css';

const Look = ({ picture }: ClipLook) => {
  const address = useAddress(useCallback(async () => picture, [picture]));
  return <img src={address} alt="" />;
};

interface Props {
  readonly facts: ClipFacts;
  readonly choice: ClipChoice;
}

export const ClipStrip = ({ facts, choice }: Props) => (
  <div
    role="group"
    aria-label="Frames of the clip"
    // What scrolls can be reached by the keyboard.
    tabIndex={0}
    className={styles['scroll']}
  >
    <ol className={styles['strip']}>
      {facts.looks.map((look) => (
        <li
          key={look.frame}
          data-outside={look.frame < choice.first || look.frame > choice.last ? '' : undefined}
        >
          <Look {...look} />
          <span>
            {look.frame + 1} · {(facts.timesS[look.frame] ?? 0).toFixed(2)} s
          </span>
        </li>
      ))}
    </ol>
  </div>
);
