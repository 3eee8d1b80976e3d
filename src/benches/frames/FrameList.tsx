/** The sequence as thumbnails: choose, reorder by dragging or by keys, take out. */
import type { KeyboardEvent } from 'react';
import { useState } from 'react';
import { nameInText } from '../../core/names/shown.ts';
import { moveFrames } from '../../job/edits/frames.ts';
import { moveTold, removeTold, stepTold } from '../../studio/frames/told-edits.ts';
import { CardList } from '../../ui/index.ts';
import { useJob, useStudio } from '../studio.ts';
import { FrameCard } from './FrameCard.tsx';
import styles from './FrameList.module.css';
import { ListTools } from './ListTools.tsx';
import { FRAME_DRAG_TYPE } from './use-frame-drop.ts';
import type { FrameItem } from './use-frame-items.ts';
import { useFrameItems } from './use-frame-items.ts';

/** In rem. All cards are alike, and none is measured: asking for a height lays out the whole page once a card. */
const CARD = { width: 8.25, height: 13.5, gap: 0.5 };

const nameOf = ({ number, frame }: FrameItem) => `${number}, ${nameInText(frame.name)}`;

const useDrag = (items: readonly FrameItem[]) => {
  const studio = useStudio();
  return {
    give: (ids: ReadonlySet<string>) => {
      const given = items.filter(({ id }) => ids.has(id));
      return {
        // A view slot takes the first of them.
        [FRAME_DRAG_TYPE]: given[0]?.id ?? '',
        'text/plain': given.map(({ frame }) => frame.name).join('\n'),
      };
    },
    onMove: (ids: ReadonlySet<string>, target: string, side: 'before' | 'after') =>
      moveTold(studio, ids, (job) => moveFrames(job, ids, target, side)),
  };
};

interface Props {
  /** One frame alone was chosen. */
  readonly onChoose?: ((id: string) => void) | undefined;
}

export const FrameList = ({ onChoose }: Props) => {
  const studio = useStudio();
  const items = useFrameItems(useJob());
  const [choice, setChoice] = useState<Parameters<typeof CardList>[0]['choice']>({
    chosen: new Set(),
  });
  const drag = useDrag(items);
  // What was chosen and has gone meanwhile, by an undo or in another tab, is chosen no more.
  const chosen = new Set(items.map(({ id }) => id).filter((id) => choice.chosen.has(id)));

  const choose = (next: typeof choice) => {
    setChoice(next);
    const [only, ...others] = next.chosen;
    if (only !== undefined && others.length === 0) onChoose?.(only);
  };
  const remove = (ids: ReadonlySet<string>) => {
    removeTold(studio, ids);
    setChoice({ chosen: new Set() });
  };
  const onKey = ({ key, altKey }: KeyboardEvent, focused: string): boolean => {
    const ids = chosen.has(focused) ? chosen : new Set([focused]);
    const earlier = key === 'ArrowLeft' || key === 'ArrowUp';
    const later = key === 'ArrowRight' || key === 'ArrowDown';
    if (altKey && (earlier || later)) stepTold(studio, ids, earlier ? -1 : 1);
    else if (key === 'Delete' || key === 'Backspace') remove(ids);
    else return false;
    return true;
  };

  return (
    <>
      <ListTools
        chosen={chosen}
        onRemove={() => remove(chosen)}
        onRemoveAll={() => remove(new Set(items.map(({ id }) => id)))}
      />
      <CardList
        label="Frames in order"
        describedBy="frame-keys"
        className={styles['list'] ?? ''}
        cardClass={styles['card'] ?? ''}
        size={CARD}
        items={items}
        nameOf={nameOf}
        choice={{ ...choice, chosen }}
        onChoose={choose}
        onKey={onKey}
        drag={drag}
      >
        {({ frame, number, slots }, aboutId) => (
          <FrameCard frame={frame} number={number} slots={slots} aboutId={aboutId} />
        )}
      </CardList>
      <p id="frame-keys" className={styles['keys']}>
        Drag to reorder, or Alt with an arrow key. Delete takes out what is chosen; undo brings it
        back.
      </p>
    </>
  );
};
