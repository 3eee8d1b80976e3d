/** What is seen, in words first; then the few pictures that can be meant, turned by hand. */
import { useState } from 'react';
import type { SightId } from '../../../core/mend/sights.ts';
import { SIGHTS } from '../../../core/mend/sights.ts';
import type { SymptomId } from '../../../core/mend/symptoms.ts';
import { SYMPTOMS } from '../../../core/mend/symptoms.ts';
import { chosenOf, seeingOf } from '../../../job/facts/mend.ts';
import { Button, ChoiceField, Notice, Panel, Prose, Row } from '../../../ui/index.ts';
import { slotColour } from '../../../ui/slot-colour.ts';
import { CautionOnce } from '../../desk/CautionOnce.tsx';
import { TiltSlider } from '../../desk/TiltSlider.tsx';
import { useJob } from '../../studio.ts';
import { Pictures } from './Pictures.tsx';
import styles from '../mend.module.css';

type Words = SightId | 'all' | '';

/** What was chosen on an earlier visit is shown again by the first words that lead to it. */
const wordsOf = (chosen: readonly SymptomId[]): Words =>
  SIGHTS.find(({ symptoms }) => symptoms.some((id) => chosen.includes(id)))?.id ?? '';

/** Of these words; whatever was chosen by others stays in sight. */
const shownBy = (words: Words, chosen: readonly SymptomId[]): readonly SymptomId[] => {
  if (words === 'all') return SYMPTOMS.map(({ id }) => id);
  const some = SIGHTS.find(({ id }) => id === words)?.symptoms ?? [];
  return [...some, ...chosen.filter((id) => !some.includes(id))];
};

/** Which colour is which view, in the order from the left camera to the right one. */
const ViewColours = () => {
  const { viewSlots } = useJob();
  return (
    <div className={styles['colours']} role="img" aria-label="A colour for each view, view 1 first">
      {Array.from({ length: viewSlots }, (_, slot) => (
        <span key={slot}>
          <i style={{ background: slotColour(slot, viewSlots) }} />
          {slot + 1}
        </span>
      ))}
    </div>
  );
};

const Looking = ({ shown }: { readonly shown: readonly SymptomId[] }) => {
  const [coloured, setColoured] = useState(false);
  const none = useJob().frames.length === 0;
  return (
    <>
      <Prose>
        Hold the print straight ahead at its viewing distance and turn these with the slider as you
        move your head. Choose what looks like it: two where two things are wrong.
      </Prose>
      {none && (
        <Notice kind="info">
          The pictures are drawn from your own frames, and this job has none yet. The words serve
          meanwhile.
        </Notice>
      )}
      <CautionOnce bench="mend" kinds={['flashing']} />
      <div className={styles['turning']}>
        <TiltSlider />
        {!none && (
          <Row gap="2 4">
            <Button aria-pressed={coloured} onClick={() => setColoured(!coloured)}>
              View numbers as colours
            </Button>
            {coloured && <ViewColours />}
          </Row>
        )}
      </div>
      <Pictures shown={shown} coloured={coloured} />
    </>
  );
};

export const WallPanel = () => {
  const chosen = chosenOf(seeingOf(useJob()));
  const [said, setSaid] = useState<Words>();
  const words = said ?? wordsOf(chosen);
  const shown = shownBy(words, chosen);
  return (
    <Panel title="What do you see on your print?">
      <ChoiceField<Words>
        answers
        label="In words first"
        choices={[
          ...SIGHTS.map(({ id, label }) => ({ value: id, label })),
          { value: 'all', label: `All ${SYMPTOMS.length} pictures` },
        ]}
        value={words}
        onChange={setSaid}
      />
      {shown.length > 0 ? (
        <Looking shown={shown} />
      ) : (
        <Prose>
          Choose what comes nearest. Three or four pictures of your own frames then show what it can
          be; they ask for what is to be counted, and the number to change comes out of that.
        </Prose>
      )}
    </Panel>
  );
};
