/** The view slots as a contact strip: what the recipe puts into each, and a choice by hand. */
import { useState } from 'react';
import type { SlotContent } from '../../core/frames/recipes.ts';
import { nameInText } from '../../core/names/shown.ts';
import { chooseSlot, spreadEvenly } from '../../job/edits/frames.ts';
import { slotsOf, titleFrameOf } from '../../job/facts/sheet.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import { sayFirstSlot, sayRecipe, saySlot } from '../../job/words/recipes.ts';
import { Button, Panel, SelectField } from '../../ui/index.ts';
import { frameChoices } from '../../job/words/frames.ts';
import { useJob, useStudio } from '../studio.ts';
import styles from './SlotPanel.module.css';
import { RecipeFields } from './recipe/RecipeFields.tsx';
import { SlotPicture } from './recipe/SlotPicture.tsx';
import { useFrameDrop } from './use-frame-drop.ts';

/** What a slot of the job shows, in words. */
const said = (job: Job, content: SlotContent | undefined): string => {
  if (content === undefined) return 'nothing';
  const shows = saySlot(content, (id) =>
    nameInText(job.frames.find((frame) => frame.id === id)?.name ?? ''),
  );
  const title = titleFrameOf(job);
  return title === undefined ? shows : `${shows}, under ${nameInText(title.name)}`;
};

const useChooseSlot = () => {
  const studio = useStudio();
  return (slot: number, frameId: string): void => {
    studio.change(`frame in slot ${slot + 1}`, (job) => chooseSlot(job, slot, frameId));
    const { job } = studio.document.getState();
    studio.announce(`Slot ${slot + 1} shows ${said(job, slotsOf(job)[slot])}.`);
  };
};

interface SlotProps {
  readonly slot: number;
  readonly content: SlotContent;
  readonly shows: string;
  readonly titled: boolean;
  readonly frameOf: (id: string) => Frame | undefined;
  readonly shape: number;
  readonly byHand: boolean;
  readonly chosen: boolean;
  onChoose(): void;
}

const Slot = ({ slot, shows, titled, byHand, chosen, onChoose, ...picture }: SlotProps) => {
  const choose = useChooseSlot();
  const { over, handlers } = useFrameDrop((id) => {
    onChoose();
    choose(slot, id);
  });
  return (
    <div
      {...handlers}
      role="group"
      aria-label={`View slot ${slot + 1}`}
      tabIndex={-1}
      className={styles['slot']}
      data-drop={over || undefined}
    >
      <label>
        <input
          type="radio"
          className="over-all"
          name="view-slot"
          checked={chosen}
          onChange={onChoose}
          aria-label={`Slot ${slot + 1}: ${shows}${byHand ? ', chosen by hand' : ''}`}
        />
        <span className={styles['place']}>
          {slot + 1}
          {picture.content.parts.length > 1 && <span>+</span>}
          {titled && <span>T</span>}
          {byHand && <span>◆</span>}
        </span>
        <span className={styles['picture']}>
          <SlotPicture {...picture} />
        </span>
      </label>
    </div>
  );
};

export const SlotPanel = () => {
  const { change, announce } = useStudio();
  const choose = useChooseSlot();
  const job = useJob();
  const [wanted, setWanted] = useState(0);
  const contents = slotsOf(job);
  const current = Math.min(wanted, contents.length - 1);
  const { slotsByHand, ...byRecipe } = job;
  const planned = said(job, slotsOf(byRecipe)[current]);
  const [first] = job.frames;
  const respread = () => {
    change('slots as the recipe', spreadEvenly);
    announce('The slots are filled by the recipe again.');
  };
  return (
    <Panel
      title="View slots"
      actions={
        <Button off={slotsByHand === undefined} onClick={respread}>
          {job.recipe === undefined ? 'Spread evenly again' : 'As the recipe again'}
        </Button>
      }
    >
      <p>
        {sayRecipe(job)} {sayFirstSlot(job)} Drag a frame onto a slot, or choose the slot and then
        its frame.
        {contents.some(({ parts }) => parts.length > 1) && ' + marks a mix of two frames.'}
        {titleFrameOf(job) !== undefined && ' T: the title lies over it.'}
        {slotsByHand !== undefined && ' ◆ marks what was chosen by hand.'}
      </p>
      <div role="radiogroup" aria-label="View slots in order" className={styles['strip']}>
        {contents.map((content, slot) => (
          <Slot
            key={slot}
            slot={slot}
            content={content}
            shows={said(job, content)}
            titled={titleFrameOf(job) !== undefined}
            frameOf={(id) => job.frames.find((frame) => frame.id === id)}
            shape={first === undefined ? 1 : first.widthPx / first.heightPx}
            byHand={(slotsByHand?.[slot] ?? '') !== ''}
            chosen={slot === current}
            onChoose={() => setWanted(slot)}
          />
        ))}
      </div>
      <div className={styles['choice']}>
        <SelectField
          label={`Frame in slot ${current + 1}`}
          value={slotsByHand?.[current] ?? ''}
          choices={[
            {
              value: '',
              label: `${job.recipe === undefined ? 'As spread' : 'As the recipe'}: ${planned}`,
            },
            ...frameChoices(job).filter(({ value }) => value !== titleFrameOf(job)?.id),
          ]}
          onChange={(id) => choose(current, id)}
        />
      </div>
      {/* Beneath the strip, which stays near the frames that are dragged onto it. */}
      <RecipeFields />
    </Panel>
  );
};
