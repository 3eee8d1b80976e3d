/** The wall: the person's own frames as they look on prints that failed in one way each. */
import { noFaults } from '../../../core/mend/fault.ts';
import type { SeenFrames } from '../../../core/mend/seen.ts';
import type { Symptom } from '../../../core/mend/symptoms.ts';
import { SYMPTOMS } from '../../../core/mend/symptoms.ts';
import { toggleSymptom } from '../../../job/edits/seen.ts';
import { chosenOf, seeingOf } from '../../../job/facts/mend.ts';
import { Notice, Panel, Prose } from '../../../ui/index.ts';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { TiltSlider } from '../../desk/TiltSlider.tsx';
import { useChange, useJob } from '../../studio.ts';
import { SeenCanvas } from '../SeenCanvas.tsx';
import { useSeenFrames, useSeenScene } from '../use-seen.ts';
import styles from '../mend.module.css';

/** Longest side of a picture: enough to know a face by, little enough for sixteen at every turn. */
const PICTURE_PX = 190;

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

export const WallPanel = () => {
  const frames = useSeenFrames(PICTURE_PX);
  const none = useJob().frames.length === 0;
  return (
    <Panel title="Which looks like your print?">
      <Prose>
        Hold the print straight ahead at its viewing distance and turn these with the slider as you
        move your head. Choose what looks like it: two where two things are wrong.
      </Prose>
      <CautionNotes kinds={['flashing']} />
      {none && (
        <Notice kind="info">
          The pictures are drawn from your own frames, and this job has none yet. The words serve
          meanwhile.
        </Notice>
      )}
      <div className={styles['turning']}>
        <TiltSlider />
      </div>
      <ul className={styles['wall']} aria-label="What failed prints look like">
        <AsPlanned frames={frames} />
        {SYMPTOMS.map((symptom) => (
          <Tile key={symptom.id} symptom={symptom} frames={frames} />
        ))}
      </ul>
    </Panel>
  );
};
