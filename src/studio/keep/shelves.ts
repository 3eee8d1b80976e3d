/** Recalls the shelves from the browser's disk, keeps every change, and follows other tabs. */
import { messageOf } from '../../contract/errors.ts';
import { nameInText } from '../../core/names/shown.ts';
import { openShelfStore } from '../../files/shelf-store.ts';
import type { LeftOut } from '../../materials/shelf-file.ts';
import { starterShelves } from '../../materials/starters.ts';
import type { Shelves } from '../../materials/shelves.ts';
import type { ShelfNotice, ShelvesStore } from '../../state/shelves.ts';
import type { Floor } from '../floor.ts';
import type { Room } from './no-room.ts';

type ShelfStore = ReturnType<typeof openShelfStore>;

const shelfWords = { lenses: 'Lenses', printers: 'Printers', papers: 'Papers' } as const;

export const leftOutLine = ({ shelf, name, reason }: LeftOut): string =>
  `${shelfWords[shelf]}, “${nameInText(name)}”: ${reason}`;

const setAside = (keptAs: string) =>
  `Nothing was deleted: they lie in this browser’s storage as “${keptAs}”.`;

const someDamaged = (leftOut: readonly LeftOut[], keptAs: string): ShelfNotice => ({
  kind: 'caution',
  title: 'Some entries on the shelves could not be read',
  lines: [...leftOut.map(leftOutLine), setAside(keptAs)],
});

const allDamaged = (reason: string, keptAs: string): ShelfNotice => ({
  kind: 'caution',
  title: 'The shelves kept from last time could not be read',
  lines: [`${reason} The generic starters are there instead.`, setAside(keptAs)],
});

const untilClosed =
  'They last as long as this page stays open: export them as a file before you close it.';

const memoryOnly = (reason: string): ShelfNotice => ({
  kind: 'caution',
  title: 'This browser does not let the studio keep the shelves',
  lines: [`${reason}. ${untilClosed}`],
});

const notKept = (reason: string): ShelfNotice => ({
  kind: 'problem',
  title: 'The shelves could not be kept on this computer',
  lines: [`${reason} ${untilClosed}`],
});

const noRoom = notKept(
  'There is no room left on the browser’s disk: see under Jobs what can be freed. Then they are kept after all.',
);

const elsewhere: ShelfNotice = {
  kind: 'info',
  title: 'The shelves were changed in another tab of the studio',
  lines: ['What was changed there stands here too.'],
};

/** Never rejects. @param disk for tests. */
export const recallShelves = async (
  { shelves }: Floor,
  room: Room,
  disk = openShelfStore(),
): Promise<void> => {
  const kept = await disk.load();
  const { open, tell } = shelves.getState();
  open(kept.kind === 'shelves' ? kept.shelves : starterShelves());
  if (kept.kind === 'shelves' && kept.leftOut.length > 0)
    tell(someDamaged(kept.leftOut, kept.keptAs));
  if (kept.kind === 'damaged') tell(allDamaged(kept.reason, kept.keptAs));
  if (kept.kind === 'memory-only') tell(memoryOnly(kept.reason));
  keepFrom(shelves, room, disk);
};

/** Writes every change from now on, and follows the changes of other tabs. */
const keepFrom = (store: ShelvesStore, room: Room, disk: ShelfStore): void => {
  const now = store.getState;
  /** What is on the disk, as far as this tab knows. */
  let onDisk = now().shelves;
  const follow = (before: Shelves, after: Shelves) => {
    onDisk = after;
    if (after === before) return;
    now().follow(before, after);
    now().tell(elsewhere);
  };
  const write = async () => {
    while (now().shelves !== onDisk) {
      const { shelves } = now();
      const written = await disk.save(onDisk, shelves);
      if (now().notice === noRoom) now().tell(undefined);
      follow(shelves, written);
    }
  };
  const keep = async () => {
    try {
      if (!(await room.keep('the shelves', write))) now().tell(noRoom);
    } catch (error) {
      now().tell(notKept(messageOf(error)));
    }
  };
  store.subscribe(({ shelves }, { shelves: before }) => {
    if (shelves !== before && shelves !== onDisk) void keep();
  });
  disk.onChangedElsewhere((stored) => follow(onDisk, stored));
};
