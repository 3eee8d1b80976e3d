/** The view slots as a contact strip: which frame each one shows, and a choice by hand. */
import { useRef, useState } from 'react';
import { useDrop } from 'react-aria-components';
import { slotFrames } from '../../core/frames/slots.ts';
import type { Frame, Job } from '../../job/job.ts';
import { framesInSlots } from '../../job/selectors.ts';
import { documentStore } from '../../state/document.ts';
import { useJob, useWork } from '../../state/hooks.ts';
import { Button, Panel, SelectField } from '../../ui/index.ts';
import styles from './SlotPanel.module.css';
import { Thumbnail } from './Thumbnail.tsx';
import { FRAME_DRAG_TYPE } from './drag-type.ts';
import { chooseSlot, spreadEvenly } from './edits.ts';
import { announce } from './live.ts';

const choose = (slot: number, frameId: string): void => {
  documentStore
    .getState()
    .change(`frame in slot ${slot + 1}`, (job) => chooseSlot(job, slot, frameId));
  const shown = framesInSlots(documentStore.getState().job)[slot];
  announce(`Slot ${slot + 1} shows ${shown?.name ?? 'nothing'}.`);
};

const respread = (): void => {
  documentStore.getState().change('even spread', spreadEvenly);
  announce('Frames are spread evenly again.');
};

const sayFilling = ({ frames: { length: frames }, viewSlots: slots }: Job): string => {
  if (frames === slots) return `${frames} frames for ${slots} view slots: one each.`;
  if (frames > slots)
    return `${frames} frames for ${slots} view slots: spread evenly, the first and the last kept.`;
  const least = Math.floor(slots / frames);
  const held = slots % frames === 0 ? `${least}` : `${least} or ${least + 1}`;
  return `${frames} ${frames === 1 ? 'frame' : 'frames'} for ${slots} view slots: each is held over ${held} slots.`;
};

interface SlotProps {
  readonly slot: number;
  readonly frame: Frame;
  readonly picture: string | undefined;
  readonly byHand: boolean;
  readonly chosen: boolean;
  onChoose(): void;
}

const Slot = ({ slot, frame, picture, byHand, chosen, onChoose }: SlotProps) => {
  const ref = useRef<HTMLDivElement>(null);
  const { dropProps, isDropTarget } = useDrop({
    ref,
    getDropOperation: (types) => (types.has(FRAME_DRAG_TYPE) ? 'copy' : 'cancel'),
    onDrop: ({ items }) => {
      const [item] = items;
      if (item?.kind !== 'text') return;
      void item.getText(FRAME_DRAG_TYPE).then((id) => {
        onChoose();
        choose(slot, id);
      });
    },
  });
  return (
    <div
      {...dropProps}
      ref={ref}
      role="group"
      aria-label={`View slot ${slot + 1}`}
      tabIndex={-1}
      className={styles['slot']}
      data-drop={isDropTarget || undefined}
    >
      <label>
        <input
          type="radio"
          name="view-slot"
          checked={chosen}
          onChange={onChoose}
          aria-label={`Slot ${slot + 1}: ${frame.name}${byHand ? ', chosen by hand' : ''}`}
        />
        <span className={styles['place']}>
          {slot + 1}
          {byHand && <span>◆</span>}
        </span>
        <span className={styles['picture']}>
          <Thumbnail picture={picture} shape={frame.widthPx / frame.heightPx} />
        </span>
      </label>
    </div>
  );
};

export const SlotPanel = () => {
  const job = useJob();
  const thumbnails = useWork((work) => work.thumbnails);
  const [wanted, setWanted] = useState(0);
  const inSlots = framesInSlots(job);
  const current = Math.min(wanted, inSlots.length - 1);
  const spread = job.frames[slotFrames(job.frames.length, job.viewSlots)[current] ?? 0];
  return (
    <Panel
      title="View slots"
      actions={
        <Button off={job.slotsByHand === undefined} onClick={respread}>
          Spread evenly again
        </Button>
      }
    >
      <p>
        {sayFilling(job)} Slot 1 is the leftmost camera. Drag a frame onto a slot, or choose the
        slot and then its frame.
        {job.slotsByHand !== undefined && ' ◆ marks what was chosen by hand.'}
      </p>
      <div role="radiogroup" aria-label="View slots in order" className={styles['strip']}>
        {inSlots.map((frame, slot) => (
          <Slot
            key={slot}
            slot={slot}
            frame={frame}
            picture={thumbnails.get(frame.id)}
            byHand={(job.slotsByHand?.[slot] ?? '') !== ''}
            chosen={slot === current}
            onChoose={() => setWanted(slot)}
          />
        ))}
      </div>
      <div className={styles['choice']}>
        <SelectField
          label={`Frame in slot ${current + 1}`}
          value={job.slotsByHand?.[current] ?? ''}
          choices={[
            { value: '', label: `As spread: ${spread?.name ?? ''}` },
            ...job.frames.map(({ id, name }, index) => ({
              value: id,
              label: `${index + 1} · ${name}`,
            })),
          ]}
          onChange={(id) => choose(current, id)}
        />
      </div>
    </Panel>
  );
};
