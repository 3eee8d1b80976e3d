/** Saves the print as it turns, to show to someone: as a page of its own, or as a clip. */
import { messageOf } from '../../contract/errors.ts';
import { inFileName } from '../../core/names/in-file-name.ts';
import { sayBytes, sayLength } from '../../core/units/format.ts';
import { mayFlash } from '../../job/facts/flash.ts';
import { viewChangesOf } from '../../job/facts/eye.ts';
import { showsDepth } from '../../job/facts/prints-depth.ts';
import type { Job } from '../../job/schema/job.ts';
import { cautionWords } from '../../job/words/cautions.ts';
import { swayHz, swayTilt } from '../../preview/sway.ts';
import { downloadBlob } from '../keep/download.ts';
import { asDataAddress } from '../keep/html.ts';
import type { Studio } from '../studio.ts';
import { showPageText } from './page-text.ts';
import type { ShowOptions, TurnedPrint } from './turned.ts';
import { openTurnedPrint } from './turned.ts';

export type ShowAs = 'page' | 'clip';

interface Drawing {
  readonly job: Job;
  readonly print: TurnedPrint;
  readonly canvas: OffscreenCanvas;
  readonly context: OffscreenCanvasRenderingContext2D;
  readonly signal: AbortSignal;
  readonly onDone: (done: number, total: number) => void;
}

class Stopped extends Error {}

/** Draws the print at each tilt, and hands each picture on before the next. */
const drawEach = async (
  { print, context, signal, onDone }: Drawing,
  tilts: readonly number[],
  took: (index: number) => Promise<void>,
): Promise<void> => {
  for (const [index, tilt] of tilts.entries()) {
    if (signal.aborted) throw new Stopped();
    onDone(index, tilts.length);
    await print.draw(tilt, context);
    await took(index);
  }
};

/** Two pictures a view, and one straight ahead; no fewer and no more than look well and go by mail. */
const pagePictures = (viewSlots: number): number => 2 * Math.max(8, Math.min(32, viewSlots)) + 1;

const JPEG = { type: 'image/jpeg', quality: 0.85 };

const makePage = async (drawing: Drawing): Promise<Blob> => {
  const { job, print, canvas } = drawing;
  const count = pagePictures(job.viewSlots);
  const tilts = Array.from({ length: count }, (_, i) => (2 * i) / (count - 1) - 1);
  const pictures: string[] = [];
  await drawEach(drawing, tilts, async () => {
    pictures.push(await asDataAddress(await canvas.convertToBlob(JPEG)));
  });
  const { widthMm, heightMm, viewingDistanceMm } = job.print;
  const text = showPageText({
    title: job.name,
    says: `${sayLength(widthMm, 'mm')} × ${sayLength(heightMm, 'mm')}, seen from ${sayLength(viewingDistanceMm, 'mm')}. Colours and sharpness differ on the print.`,
    cautions: [
      ...(mayFlash(job) ? [cautionWords.flashing.brief] : []),
      ...(showsDepth(job) ? [cautionWords.depth.brief] : []),
    ],
    ribs: job.ribs,
    width: print.width,
    height: print.height,
    pictures,
  });
  return new Blob([text], { type: 'text/html' });
};

const FRAMES_A_SECOND = 25;

/** Once there and back, beginning and ending straight ahead, no faster than the proof sways. */
const makeClip = async (drawing: Drawing): Promise<Blob> => {
  const { encodeClip } = await import('./encode-clip.ts');
  const { job, canvas } = drawing;
  const changes = viewChangesOf(job);
  const count = Math.ceil(FRAMES_A_SECOND / swayHz(changes));
  const tilts = Array.from({ length: count }, (_, i) => swayTilt(0, i / FRAMES_A_SECOND, changes));
  return encodeClip(canvas, FRAMES_A_SECOND, (add) => drawEach(drawing, tilts, add));
};

const endings: Readonly<Record<string, string>> = {
  'text/html': '.html',
  'video/mp4': '.mp4',
  'video/webm': '.webm',
};

/** Never rejects. @returns how it ended, as a sentence */
export const saveShow = async (
  studio: Studio,
  as: ShowAs,
  options: ShowOptions,
  onDone: (done: number, total: number) => void,
): Promise<string> => {
  const { job, jobId } = studio.document.getState();
  return studio.tasks.run({ kind: 'showing', jobId }, async (signal) => {
    let print: TurnedPrint | undefined;
    try {
      onDone(0, 1);
      if (typeof OffscreenCanvas === 'undefined')
        throw new Error('This browser cannot draw it off the screen. Try another one.');
      print = await openTurnedPrint(studio, options, signal);
      const canvas = new OffscreenCanvas(print.width, print.height);
      const context = canvas.getContext('2d', { alpha: false });
      if (context === null) throw new Error('This browser gives no canvas to draw on.');
      const drawing = { job, print, canvas, context, signal, onDone };
      const file = await (as === 'page' ? makePage(drawing) : makeClip(drawing));
      if (signal.aborted) throw new Stopped();
      const type = file.type.replace(/;.*/, '');
      const name = `${inFileName(job.name, 'print')} to show${endings[type] ?? ''}`;
      downloadBlob(file, name);
      return `Saved as “${name}”, ${sayBytes(file.size)}.`;
    } catch (error) {
      return error instanceof Stopped ? 'Stopped: nothing was saved.' : messageOf(error);
    } finally {
      print?.end();
    }
  });
};
