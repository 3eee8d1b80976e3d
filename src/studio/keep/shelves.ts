/** Between the shelves' store and the browser's disk: fetches, keeps every change, follows other tabs. */
import { openShelfStore } from '../../files/shelf-store.ts';
import type { LeftOut } from '../../materials/shelf-file.ts';
import { starterShelves } from '../../materials/starters.ts';
import type { Shelves } from '../../materials/shelves.ts';
import type { ShelfNotice } from '../../state/shelves.ts';
import { shelvesStore } from '../../state/shelves.ts';
import { keepWithRoom } from './no-room.ts';

type ShelfStore = ReturnType<typeof openShelfStore>;

const store = shelvesStore.getState;
const shelfWords = { lenses: 'Lenses', printers: 'Printers', papers: 'Papers' } as const;

export const leftOutLine = ({ shelf, name, reason }: LeftOut): string =>
  `${shelfWords[shelf]}, “${name}”: ${reason}`;

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

const memoryOnly = (reason: string): ShelfNotice => ({
  kind: 'caution',
  title: 'This browser does not let the studio keep the shelves',
  lines: [
    `${reason}. They last as long as this page stays open: export them as a file before you close it.`,
  ],
});

const notKept = (reason: string): ShelfNotice => ({
  kind: 'problem',
  title: 'The shelves could not be kept on this computer',
  lines: [
    `${reason} They last as long as this page stays open: export them as a file before you close it.`,
  ],
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
export const recallShelves = async (disk = openShelfStore()): Promise<void> => {
  const kept = await disk.load();
  store().open(kept.kind === 'shelves' ? kept.shelves : starterShelves());
  if (kept.kind === 'shelves' && kept.leftOut.length > 0)
    store().tell(someDamaged(kept.leftOut, kept.keptAs));
  if (kept.kind === 'damaged') store().tell(allDamaged(kept.reason, kept.keptAs));
  if (kept.kind === 'memory-only') store().tell(memoryOnly(kept.reason));
  keepFrom(disk);
};

/** Keeps every change from now on, and follows what other tabs keep. */
const keepFrom = (disk: ShelfStore): void => {
  /** As far as this tab knows. What it could not write yet stands in the page alone. */
  let onDisk = store().shelves;
  const follow = (before: Shelves, after: Shelves) => {
    onDisk = after;
    if (after === before) return;
    store().follow(before, after);
    store().tell(elsewhere);
  };
  const write = async () => {
    while (store().shelves !== onDisk) {
      const { shelves } = store();
      const written = await disk.save(onDisk, shelves);
      if (store().notice === noRoom) store().tell(undefined);
      follow(shelves, written);
    }
  };
  const keep = async () => {
    try {
      if (!(await keepWithRoom('the shelves', write))) store().tell(noRoom);
    } catch (error) {
      store().tell(notKept(error instanceof Error ? error.message : String(error)));
    }
  };
  shelvesStore.subscribe(({ shelves }, { shelves: before }) => {
    if (shelves !== before && shelves !== onDisk) void keep();
  });
  disk.onChangedElsewhere((stored) => follow(onDisk, stored));
};
