/** Pictures of the print as it turns, drawn by the tilt proof's painter, for files to show to someone. */
import { drawProof } from '../../calls/proof.ts';
import type { ProofPixels } from '../../contract/proof.ts';
import type { ProofSources } from '../../core/proof/sources.ts';
import { bleedMmOf } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import { waitFor } from '../prepare/wait-for.ts';
import { proofSourcesOf, proofViewOf } from '../proof/proof-scene.ts';
import type { Studio } from '../studio.ts';

export interface ShowOptions {
  /** Longest side of the pictures, pixels. */
  readonly longestPx: number;
  /** Says on each picture that it is a preview. */
  readonly marked: boolean;
}

export interface TurnedPrint {
  /** Even, as film wants them. */
  readonly width: number;
  readonly height: number;
  /** Draws the trimmed print at this tilt, −1 … 1, over the whole canvas. */
  draw(tilt: number, onto: OffscreenCanvasRenderingContext2D): Promise<void>;
  end(): void;
}

const even = (pixels: number): number => Math.max(2, 2 * Math.round(pixels / 2));

const sizeOf = ({ print }: Job, longestPx: number): { width: number; height: number } => {
  const scale = longestPx / Math.max(print.widthMm, print.heightMm);
  return { width: even(print.widthMm * scale), height: even(print.heightMm * scale) };
};

const mark = (onto: OffscreenCanvasRenderingContext2D, width: number, height: number): void => {
  const size = Math.max(12, Math.round(0.035 * Math.max(width, height)));
  onto.font = `600 ${size}px sans-serif`;
  onto.textBaseline = 'alphabetic';
  onto.lineWidth = size / 6;
  onto.strokeStyle = 'rgb(0 0 0 / 60%)';
  onto.fillStyle = 'rgb(255 255 255 / 90%)';
  onto.strokeText('Preview', size / 2, height - size / 2);
  onto.fillText('Preview', size / 2, height - size / 2);
};

/** Lays what the painter drew, bleed and all, so that the trimmed print fills the canvas. */
const lay = (
  print: ProofPixels,
  job: Job,
  onto: OffscreenCanvasRenderingContext2D,
  { width, height }: { readonly width: number; readonly height: number },
): void => {
  const whole = new OffscreenCanvas(print.width, print.height);
  whole
    .getContext('2d')
    ?.putImageData(new ImageData(print.pixels, print.width, print.height), 0, 0);
  const bleed = bleedMmOf(job);
  const left = (bleed / (job.print.widthMm + 2 * bleed)) * print.width;
  const top = (bleed / (job.print.heightMm + 2 * bleed)) * print.height;
  onto.drawImage(
    whole,
    left,
    top,
    print.width - 2 * left,
    print.height - 2 * top,
    0,
    0,
    width,
    height,
  );
};

/** What is drawn, once all frames are prepared; at a stop, as far as they are. Rejects where they never will be. */
const sourcesAwaited = (studio: Studio, job: Job, signal: AbortSignal): Promise<ProofSources> => {
  const { document, work } = studio;
  return waitFor(studio, signal, () => {
    const { prepared, prepareFaults } = work.getState();
    const sources = proofSourcesOf(job, prepared);
    if (signal.aborted || sources.pictures.every((one) => one !== undefined)) return sources;
    if (document.getState().job !== job)
      throw new Error('The job was changed before its frames were ready. Save it again.');
    const [fault] = prepareFaults.values();
    if (fault !== undefined) throw new Error(fault);
    return undefined;
  });
};

/** Draws the job as it is now, once its frames are prepared. The caller ends it. */
export const openTurnedPrint = async (
  studio: Studio,
  { longestPx, marked }: ShowOptions,
  signal: AbortSignal,
): Promise<TurnedPrint> => {
  const { job } = studio.document.getState();
  const sources = await sourcesAwaited(studio, job, signal);
  const size = sizeOf(job, longestPx);
  const bleed = bleedMmOf(job);
  const drawn = {
    width: Math.ceil((size.width * (job.print.widthMm + 2 * bleed)) / job.print.widthMm),
    height: Math.ceil((size.height * (job.print.heightMm + 2 * bleed)) / job.print.heightMm),
  };
  const halt = new AbortController();
  const gone = new Promise<never>((_, reject) =>
    halt.signal.addEventListener('abort', () =>
      reject(new Error('The part of the studio that draws the proof stopped. Try again.')),
    ),
  );
  gone.catch(() => undefined);
  const drawing = drawProof(undefined, 'processor', {
    onCardLost: () => undefined,
    onGone: () => halt.abort(),
  });
  await Promise.race([drawing.load(sources), gone]);
  return {
    ...size,
    async draw(tilt, onto) {
      const print = await Promise.race([drawing.paint(proofViewOf(job, tilt, false), drawn), gone]);
      if (print === undefined) throw new Error('The proof was not drawn. Try again.');
      lay(print, job, onto, size);
      if (marked) mark(onto, size.width, size.height);
    },
    end: () => drawing.end(),
  };
};
