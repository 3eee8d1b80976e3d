/** The sequence as thumbnails: choose, reorder by dragging or by keys, take out. */
import type { KeyboardEvent } from 'react';
import { useDeferredValue, useState } from 'react';
import type { Key, Selection } from 'react-aria-components';
import { GridList, GridListItem, useDragAndDrop, Virtualizer } from 'react-aria-components';
import { nameInText } from '../../core/names/shown.ts';
import { moveFrames } from '../../job/edits/frames.ts';
import { moveTold, removeTold, stepTold } from '../../studio/frames/told-edits.ts';
import { useJob, useStudio } from '../studio.ts';
import { FrameCard } from './FrameCard.tsx';
import styles from './FrameList.module.css';
import { ListTools } from './ListTools.tsx';
import { FRAME_DRAG_TYPE } from './use-frame-drop.ts';
import type { FrameItem } from './use-frame-items.ts';
import { useFrameItems } from './use-frame-items.ts';
import { FrameLayout, useFrameLayout } from './use-frame-layout.ts';

const idsOf = (keys: Iterable<Key>): Set<string> => new Set([...keys].map(String));

/** RAC marks each row with its key; undefined when the focus lies elsewhere. */
const focusedId = (target: EventTarget): string | undefined =>
  target instanceof Element
    ? (target.closest('[role="row"]')?.getAttribute('data-key') ?? undefined)
    : undefined;

const useReorder = (items: readonly FrameItem[]) => {
  const studio = useStudio();
  return useDragAndDrop<FrameItem>({
    getItems: (keys) =>
      items
        .filter(({ id }) => keys.has(id))
        .map(({ id, frame }) => ({ [FRAME_DRAG_TYPE]: id, 'text/plain': frame.name })),
    onReorder: ({ keys, target }) => {
      if (target.dropPosition === 'on') return;
      const side = target.dropPosition;
      moveTold(studio, idsOf(keys), (job) =>
        moveFrames(job, idsOf(keys), String(target.key), side),
      );
    },
  });
};

export const FrameList = () => {
  const studio = useStudio();
  // Thousands of frames are laid out in pieces between other work, behind what the rest of the bench shows.
  const items = useFrameItems(useDeferredValue(useJob()));
  const layoutOptions = useFrameLayout();
  const [selection, setSelection] = useState<Selection>(new Set());
  const { dragAndDropHooks } = useReorder(items);
  const chosen = new Set(
    items.map(({ id }) => id).filter((id) => selection === 'all' || selection.has(id)),
  );

  const remove = (ids: ReadonlySet<string>) => {
    removeTold(studio, ids);
    setSelection(new Set());
  };
  const onKey = (event: KeyboardEvent) => {
    const focused = focusedId(event.target);
    if (focused === undefined || event.ctrlKey || event.metaKey) return;
    const ids = chosen.has(focused) ? chosen : new Set([focused]);
    const earlier = event.key === 'ArrowLeft' || event.key === 'ArrowUp';
    const later = event.key === 'ArrowRight' || event.key === 'ArrowDown';
    if (event.altKey && (earlier || later)) stepTold(studio, ids, earlier ? -1 : 1);
    else if (event.key === 'Delete' || event.key === 'Backspace') remove(ids);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <>
      <ListTools
        chosen={chosen}
        onRemove={() => remove(chosen)}
        onRemoveAll={() => remove(idsOf(items.map(({ id }) => id)))}
      />
      <div onKeyDownCapture={onKey}>
        <Virtualizer layout={FrameLayout} layoutOptions={layoutOptions}>
          <GridList
            aria-label="Frames in order"
            aria-describedby="frame-keys"
            layout="grid"
            keyboardNavigationBehavior="tab"
            selectionMode="multiple"
            selectionBehavior="replace"
            items={items}
            selectedKeys={selection}
            onSelectionChange={setSelection}
            dragAndDropHooks={dragAndDropHooks}
            className={styles['list'] ?? ''}
          >
            {({ id, frame, number, slots }) => (
              <GridListItem
                id={id}
                textValue={`${number}, ${nameInText(frame.name)}`}
                className={styles['card'] ?? ''}
              >
                <FrameCard frame={frame} number={number} slots={slots} />
              </GridListItem>
            )}
          </GridList>
        </Virtualizer>
      </div>
      <p id="frame-keys" className={styles['keys']}>
        Drag to reorder, or Alt with an arrow key. Delete takes out what is chosen; undo brings it
        back.
      </p>
    </>
  );
};
