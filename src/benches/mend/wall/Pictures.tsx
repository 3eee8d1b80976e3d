/** The pictures of the wall: each the person's own frames on a print that failed in one way. */
import { noFaults } from '../../../core/mend/fault.ts';
import type { Symptom, SymptomId } from '../../../core/mend/symptoms.ts';
import { SYMPTOMS } from '../../../core/mend/symptoms.ts';
import type { SeenFrames } from '../../../core/mend/seen.ts';
import { toggleSymptom } from '../../../job/edits/seen.ts';
import { chosenOf, seeingOf } from '../../../job/facts/mend.ts';
import { Prose } from '../../../ui/index.ts';
import { useChange, useJob } from '../../studio.ts';
import { SeenCanvas } from '../SeenCanvas.tsx';
import { useColoured, useSeenFrames, useSeenScene } from '../use-seen.ts';
import styles from '../mend.module.css';

/** Longest side of a picture, drawn pixels: a few can be large, sixteen at every turn cannot. */
const LARGE_PX = 380;
const SMALL_PX = 190;
const FEW = 6;

const Tile = ({ symptom, frames }: { symptom: Symptom; frames: SeenFrames | undefined }) => {
  const change = useChange();
  const seeing = seeingOf(useJob());
  const scene = useSeenScene(frames, symptom.sample);
  const lying = seeing.printed.ribs === 'lying';
  const look = lying ? (symptom.lookLying ?? symptom.look) : symptom.look;
  const pressed = chosenOf(seeing).includes(symptom.id);
  return (
    <li>
      <button
        type="button"
        className={styles['tile']}
        aria-pressed={pressed}
        onClick={() => void change(...toggleSymptom(symptom.id))}
      >
        {scene !== undefined && <SeenCanvas scene={scene} />}
        <strong>{symptom.label}</strong>
        <Prose as="span">{look}</Prose>
      </button>
    </li>
  );
};

const asPlanned = () => noFaults;

const AsPlanned = ({ frames }: { readonly frames: SeenFrames | undefined }) => {
  const scene = useSeenScene(frames, asPlanned);
  return (
    <li className={styles['planned']}>
      {scene !== undefined && <SeenCanvas scene={scene} />}
      <strong>As it should look</strong>
      <Prose as="span">To compare with. Not to be chosen.</Prose>
    </li>
  );
};

interface Props {
  readonly shown: readonly SymptomId[];
  /** With the view numbers laid over as colours. */
  readonly coloured: boolean;
}

export const Pictures = ({ shown, coloured }: Props) => {
  const few = shown.length <= FEW;
  const frames = useColoured(useSeenFrames(few ? LARGE_PX : SMALL_PX), coloured);
  const inOrder = shown.flatMap((id) => SYMPTOMS.filter((symptom) => symptom.id === id));
  return (
    <ul
      className={few ? `${styles['wall']} ${styles['large']}` : styles['wall']}
      aria-label="What failed prints look like"
    >
      {inOrder.map((symptom) => (
        <Tile key={symptom.id} symptom={symptom} frames={frames} />
      ))}
      <AsPlanned frames={frames} />
    </ul>
  );
};
