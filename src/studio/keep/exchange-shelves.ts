/** Exports the shelves to a file, and imports them from one. */
import { messageOf } from '../../contract/errors.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { Merged } from '../../materials/shelf-file.ts';
import { mergeShelves, readShelvesText, writeShelves } from '../../materials/shelf-file.ts';
import type { ShelfNotice } from '../../state/shelves.ts';
import type { Studio } from '../studio.ts';
import { downloadBlob } from './download.ts';
import { leftOutLine } from './shelves.ts';

/** Far more than any shelves need: a wrong file would only freeze the page. */
const MOST_BYTES = 2e6;
const MOST_LINES = 12;

const counted = (number: number, one: string, many: string) =>
  `${number} ${number === 1 ? one : many}`;

const mergedNotice = (
  fileName: string,
  { added, besides, leftOut }: Merged,
  damaged: boolean,
): ShelfNotice => {
  const came = added + besides.length;
  const lines = [
    ...besides.map(
      ({ name, as }) =>
        `“${nameInText(name)}” stands on the shelf and differs: yours stays, theirs stands beside it as “${nameInText(as)}”.`,
    ),
    ...leftOut.map((one) => `Skipped: ${leftOutLine(one)}`),
  ];
  const more = lines.length - MOST_LINES;
  return {
    kind: damaged || besides.length > 0 ? 'caution' : 'info',
    title:
      came === 0
        ? `Nothing new in ${nameInText(fileName)}`
        : `${counted(came, 'entry', 'entries')} imported from ${nameInText(fileName)}`,
    lines: more > 0 ? [...lines.slice(0, MOST_LINES), `And ${more} more like these.`] : lines,
  };
};

/** Never rejects: an error is told with the file's name, and the shelves stay as they were. */
export const importShelves = async ({ shelves }: Studio, file: File): Promise<void> => {
  const { change, tell } = shelves.getState();
  const refuse = (reason: string) =>
    tell({
      kind: 'problem',
      title: `${nameInText(file.name)} was not imported`,
      lines: [
        `${reason} Choose a .json file that “Export shelves” wrote. Your shelves are as they were.`,
      ],
    });
  if (file.size > MOST_BYTES) return refuse('It is too large to be shelves: more than 2 MB.');
  let text: string;
  try {
    text = await file.text();
  } catch (error) {
    return refuse(`It could not be opened (${messageOf(error)}).`);
  }
  const read = readShelvesText(text);
  if (!read.ok) return refuse(read.reason);
  const merged = mergeShelves(shelves.getState().shelves, read.shelves, () => crypto.randomUUID());
  if (merged.added + merged.besides.length > 0)
    change(`import of ${nameInText(file.name)}`, merged.shelves);
  const leftOut = [...read.leftOut, ...merged.leftOut];
  tell(mergedNotice(file.name, { ...merged, leftOut }, read.leftOut.length > 0));
};

export const exportShelves = ({ shelves }: Studio): void => {
  const text = writeShelves(shelves.getState().shelves);
  downloadBlob(new Blob([text], { type: 'application/json' }), 'tiltloom shelves.json');
};
