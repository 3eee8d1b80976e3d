/** Saves the finished tiles of a print together: as one PDF with a page for each, or numbered in a folder. */
import { StudioError, messageOf } from '../../contract/errors.ts';
import { openPdfOfPages } from '../../core/encode/pdf.ts';
import { inFileName } from '../../core/names/in-file-name.ts';
import { askForFolder, openFolderSink } from '../../files/folder.ts';
import type { KeptRun } from '../../files/kept-runs.ts';
import { pourInto } from '../../files/pour.ts';
import { changedParts, digestsOf, partsOf } from './woven-from.ts';
import { conversionOf, inColours } from '../colour/conversion.ts';
import { downloadBlob } from '../keep/download.ts';
import type { Studio } from '../studio.ts';
import { termsOf } from './go-on.ts';
import { sheetInfo } from './sheet-info.ts';
import { tilesOfJob } from './tiles.ts';

const whole = async (run: KeptRun, index: number) => {
  const kept = await run.open(index);
  const file = await kept.file();
  const { name } = run.record().files[index] ?? {};
  if (file === undefined)
    throw new StudioError(
      'internal',
      `There is no file of ${name ?? 'a piece'} here: weave it, then save all of them.`,
    );
  return { kept, file };
};

const lastTiles = ({ finished, document }: Studio): KeptRun => {
  const run = finished.lastRun(document.getState().jobId, 'tiles');
  if (run === undefined) throw new StudioError('internal', 'No tiles are woven yet.');
  return run;
};

/** The pages follow from the job, so it must be the one that was woven. */
const notChanged = ({ document, work }: Studio, run: KeptRun): void => {
  const parts = partsOf.tiles(document.getState().job, work.getState().wholeParallax);
  if (changedParts(run.record().dependsOn, digestsOf(parts)).length > 0)
    throw new StudioError(
      'internal',
      'The job has changed since the tiles were woven. Weave them again, then save them as one PDF.',
    );
};

/**
 * One PDF of all tiles, put together of the bands that are kept: nothing is woven or copied.
 * @throws StudioError with a sentence for the person
 */
const tilesAsPdf = async (studio: Studio): Promise<{ file: Blob; name: string }> => {
  const { job } = studio.document.getState();
  const run = lastTiles(studio);
  notChanged(studio, run);
  const terms = termsOf(studio, run.record());
  const { files } = tilesOfJob(studio, job, terms);
  const name = `${job.name}, ${files.length} tiles`;
  const conversion = await conversionOf(studio, job);
  if (conversion === 'stopped') throw new StudioError('internal', 'The PDF was not put together.');
  const about = { info: { ...sheetInfo(job, terms.at), title: name } };
  const pdf = openPdfOfPages(
    files.map(({ info }) => ({ info: inColours({ info }, conversion).info })),
    inColours(about, conversion).info,
  );
  const parts: BlobPart[] = [pdf.head()];
  for (const index of files.keys()) {
    if (index > 0) parts.push(pdf.next());
    const { kept } = await whole(run, index);
    for (const band of kept.begun) pdf.took(band);
    parts.push(kept.bands());
  }
  parts.push(pdf.tail().bytes);
  return { file: new Blob(parts, { type: 'application/pdf' }), name };
};

const told = async ({ tell }: Studio, task: () => Promise<void>): Promise<void> => {
  try {
    await task();
  } catch (error) {
    tell(messageOf(error));
  }
};

/** Never rejects: what stands in the way is told at the head of the page. */
export const saveTilesAsPdf = (studio: Studio): Promise<void> =>
  told(studio, async () => {
    const { file, name } = await tilesAsPdf(studio);
    downloadBlob(file, `${inFileName(name, 'tiles')}.pdf`);
  });

/** The same into a folder that the person chooses, numbered in the order of their rows. */
export const saveTilesToFolder = (studio: Studio): Promise<void> =>
  told(studio, async () => {
    const folder = await askForFolder();
    if (folder === undefined) return;
    const run = lastTiles(studio);
    const { files } = run.record();
    const digits = String(files.length).length;
    for (const [index, { fileName }] of files.entries()) {
      const { file } = await whole(run, index);
      const numbered = `${String(index + 1).padStart(digits, '0')} ${fileName}`;
      const sink = await openFolderSink(folder, numbered);
      try {
        await pourInto(file, sink);
        await sink.close();
      } catch (error) {
        await sink.abort().catch(() => undefined);
        throw error;
      }
    }
    studio.inform(`${files.length} tiles are saved in the folder, numbered row by row.`);
  });
