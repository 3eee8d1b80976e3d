/** Between the shelves' store, the browser's disk and files: fetches, keeps, exports, imports. */
import { loadShelves, saveShelves } from '../../../files/shelf-store.ts';
import type { Shelves } from '../../../job/shelf.ts';
import { mergeShelves, readShelvesText, writeShelves } from '../../../job/shelf-file.ts';
import type { LeftOut, Merged } from '../../../job/shelf-file.ts';
import { starterShelves } from '../../../job/shelf-starters.ts';
import { shelvesStore } from '../../../state/shelves.ts';

const store = shelvesStore.getState;
const shelfWords = { lenses: 'Lenses', printers: 'Printers', papers: 'Papers' } as const;
const said = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const leftOutLine = ({ shelf, name, reason }: LeftOut) =>
  `${shelfWords[shelf]}, “${name}”: ${reason}`;

const keep = (shelves: Shelves) =>
  saveShelves(shelves).catch((error: unknown) =>
    store().tell({
      kind: 'problem',
      title: 'The shelves could not be kept on this computer',
      lines: [
        `${said(error)} They last as long as this page stays open: export them as a file, then free some disk space.`,
      ],
    }),
  );

const fetchShelves = async (): Promise<void> => {
  const kept = await loadShelves();
  if (kept.kind === 'shelves') {
    store().open(kept.shelves);
    if (kept.leftOut.length > 0)
      store().tell({
        kind: 'caution',
        title: 'Some entries on the shelves could not be read',
        lines: [
          ...kept.leftOut.map(leftOutLine),
          `Nothing was deleted: they lie in this browser’s storage as “${kept.keptAs}”.`,
        ],
      });
  } else {
    store().open(starterShelves());
    if (kept.kind === 'damaged')
      store().tell({
        kind: 'caution',
        title: 'The shelves kept from last time could not be read',
        lines: [
          `${kept.reason} The generic starters are there instead.`,
          `Nothing was deleted: they lie in this browser’s storage as “${kept.keptAs}”.`,
        ],
      });
    if (kept.kind === 'memory-only')
      store().tell({
        kind: 'caution',
        title: 'This browser does not let the studio keep the shelves',
        lines: [
          `${kept.reason}. They last as long as this page stays open: export them as a file before you close it.`,
        ],
      });
  }
  shelvesStore.subscribe(({ shelves }, before) => {
    if (shelves !== before.shelves) void keep(shelves);
  });
};

let fetched: Promise<void> | undefined;

/** Once a visit, whoever asks first. */
export const recallShelves = (): Promise<void> => (fetched ??= fetchShelves());

/** Far more than any shelf: a wrong file would only freeze the page. */
const MOST_BYTES = 5e6;

const count = (number: number, one: string, many: string) =>
  `${number} ${number === 1 ? one : many}`;

const tellMerged = (fileName: string, { added, besides, leftOut }: Merged, damaged: boolean) => {
  const nothing = added + besides.length === 0;
  store().tell({
    kind: damaged || besides.length > 0 ? 'caution' : 'info',
    title: nothing
      ? `Nothing new in ${fileName}`
      : `${count(added + besides.length, 'entry', 'entries')} imported from ${fileName}`,
    lines: [
      ...besides.map(
        ({ name, as }) =>
          `“${name}” is on the shelf with other numbers: yours stays, theirs stands beside it as “${as}”.`,
      ),
      ...leftOut.map((one) => `Skipped: ${leftOutLine(one)}`),
    ],
  });
};

/** Never rejects: what is wrong is told with the file's name, and the shelves stay as they were. */
export const importShelves = async (file: File): Promise<void> => {
  const refuse = (reason: string) =>
    store().tell({
      kind: 'problem',
      title: `${file.name} was not imported`,
      lines: [
        `${reason} Choose a .json file that “Export shelves” wrote. Your shelves are as they were.`,
      ],
    });
  if (file.size > MOST_BYTES) return refuse('It is too large to be shelves: more than 5 MB.');
  let text: string;
  try {
    text = await file.text();
  } catch (error) {
    return refuse(`It could not be opened (${said(error)}).`);
  }
  const read = readShelvesText(text);
  if (!read.ok) return refuse(read.reason);
  const merged = mergeShelves(store().shelves, read.shelves, () => crypto.randomUUID());
  if (merged.added + merged.besides.length > 0)
    store().change(`import of ${file.name}`, merged.shelves);
  tellMerged(
    file.name,
    { ...merged, leftOut: [...read.leftOut, ...merged.leftOut] },
    read.leftOut.length > 0,
  );
};

export const exportShelves = (): void => {
  const href = URL.createObjectURL(
    new Blob([writeShelves(store().shelves)], { type: 'application/json' }),
  );
  const link = document.createElement('a');
  link.href = href;
  link.download = 'tiltloom shelves.json';
  link.click();
  // The browser has begun to read it by then.
  setTimeout(() => URL.revokeObjectURL(href), 60_000);
};
