/** The sequence as thumbnails: choose, reorder by dragging or by keys, take out. */
import type { KeyboardEvent } from 'react';
import { useState } from 'react';
import type { Key, Selection } from 'react-aria-components';
import {
  Button as GripButton,
  GridList,
  GridListItem,
  Text,
  useDragAndDrop,
} from 'react-aria-components';
import { saySlots } from '../../core/frames/slots.ts';
import { nameInText } from '../../core/names/shown.ts';
import { moveFrames, slotsByFrame } from '../../job/edits/frames.ts';
import { sayInvented } from '../../job/facts/made.ts';
import type { Frame } from '../../job/schema/job.ts';
import { moveTold, removeTold, stepTold } from '../../studio/frames/told-edits.ts';
import { Name } from '../../ui/index.ts';
import { useJob, useStudio, useWork } from '../studio.ts';
import styles from './FrameList.module.css';
import { ListTools } from './ListTools.tsx';
import { Thumbnail } from './Thumbnail.tsx';
import { FRAME_DRAG_TYPE } from './use-frame-drop.ts';

interface Item {
  readonly id: string;
  readonly frame: Frame;
  readonly number: number;
  readonly picture: string | undefined;
  /** "1–3, 6"; empty when no slot shows it. */
  readonly slots: string;
}

const useItems = (): Item[] => {
  const job = useJob();
  const thumbnails = useWork((work) => work.thumbnails);
  const slots = slotsByFrame(job);
  return job.frames.map((frame, index) => ({
    id: frame.id,
    frame,
    number: index + 1,
    picture: thumbnails.get(frame.id),
    slots: saySlots(slots.get(frame.id) ?? []),
  }));
};

const idsOf = (keys: Iterable<Key>): Set<string> => new Set([...keys].map(String));

/** RAC marks each row with its key; undefined when the focus lies elsewhere. */
const focusedId = (target: EventTarget): string | undefined =>
  target instanceof Element
    ? (target.closest('[role="row"]')?.getAttribute('data-key') ?? undefined)
    : undefined;

const Grip = () => (
  <svg viewBox="0 0 12 20" aria-hidden="true">
    <path d="M3 3v14M9 3v14" />
  </svg>
);

const FrameCard = ({ item }: { readonly item: Item }) => {
  const { frame, number, picture, slots } = item;
  const lost = useWork((work) => work.missingOriginals.has(frame.id));
  return (
    <GridListItem
      id={item.id}
      textValue={`${number}, ${nameInText(frame.name)}`}
      className={styles['card'] ?? ''}
    >
      <div className={styles['picture']}>
        <Thumbnail picture={picture} shape={frame.widthPx / frame.heightPx} />
        <span className={styles['number']}>{number}</span>
        <GripButton slot="drag" className={styles['grip'] ?? ''}>
          <Grip />
        </GripButton>
      </div>
      <p className={styles['name']}>
        <Name>{frame.name}</Name>
      </p>
      <Text slot="description" className={styles['facts'] ?? ''}>
        {frame.widthPx} × {frame.heightPx} · {frame.kind}
        {lost && <b className={styles['lost']}>original missing</b>}
        {frame.made !== undefined && (
          <span className={styles['made']}>
            made {frame.made.place} of {frame.made.count},{' '}
            <span>{sayInvented(frame.made.invented)}</span>
          </span>
        )}
        <span className={slots === '' ? styles['unused'] : styles['slots']}>
          {slots === '' ? 'in no slot' : `${/^\d+$/.test(slots) ? 'slot' : 'slots'} ${slots}`}
        </span>
      </Text>
    </GridListItem>
  );
};

const useReorder = (items: readonly Item[]) => {
  const studio = useStudio();
  return useDragAndDrop<Item>({
    getItems: (keys) =>
      [...keys].map((key) => ({
        [FRAME_DRAG_TYPE]: String(key),
        'text/plain': items.find(({ id }) => id === key)?.frame.name ?? '',
      })),
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
  const items = useItems();
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
          {(item) => <FrameCard item={item} />}
        </GridList>
      </div>
      <p id="frame-keys" className={styles['keys']}>
        Drag to reorder, or Alt with an arrow key. Delete takes out what is chosen; undo brings it
        back.
      </p>
    </>
  );
};
