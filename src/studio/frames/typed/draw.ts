/** Draws a typed title as a picture with transparency, in a typeface that the device has. */
import { isGeneric, isOwnFace } from '../../../job/words/faces.ts';
import type { Typed } from '../../../job/schema/typed.ts';
import type { Layout, Pen } from './lay-out.ts';
import { drawLetters, layOutWithin, MEASURED_ROOM, measureCap } from './lay-out.ts';

/** What is set by the person; the rest follows from the drawing. */
export type TypedWish = Omit<Typed, 'pxPerMm' | 'instead'>;

export interface DrawnTitle {
  /** PNG, sRGB, with transparency. */
  readonly file: Blob;
  readonly typed: Typed;
}

/** Finer than a printer's usual 300 dpi of a picture. */
const PX_PER_MM = 12;
const PX_PER_RIB = 4;
/** 48 megabytes while it is drawn; no browser draws a side longer than 16384. */
const ROOM = { mostPx: 12e6, mostSide: 12000 };

const LACKING = 'sans-serif';

const named = (face: string): string => `"${face.replace(/["\\\n]/g, '')}"`;
const familyOf = (face: string): string => (isGeneric(face) ? face : `${named(face)}, ${LACKING}`);

/** A canvas that is not on the page, off its document too where the browser has that. */
const newCanvas = (width: number, height: number): OffscreenCanvas | HTMLCanvasElement =>
  typeof OffscreenCanvas === 'undefined'
    ? Object.assign(document.createElement('canvas'), { width, height })
    : new OffscreenCanvas(width, height);

const penOf = (canvas: OffscreenCanvas | HTMLCanvasElement): Pen => {
  // Of either kind, asked for apart: together their types know more kinds of pens.
  const pen = 'convertToBlob' in canvas ? canvas.getContext('2d') : canvas.getContext('2d');
  if (pen === null) throw new Error('The browser gave no canvas to draw the title on.');
  return pen;
};

const pngOf = (canvas: OffscreenCanvas | HTMLCanvasElement): Promise<Blob> =>
  'convertToBlob' in canvas
    ? canvas.convertToBlob({ type: 'image/png' })
    : new Promise((resolve, reject) => {
        canvas.toBlob((blob) => {
          if (blob === null)
            reject(new Error('The browser could not make a picture of the title.'));
          else resolve(blob);
        }, 'image/png');
      });

/** Letters whose widths differ from typeface to typeface. */
const PROBE = 'mmmmwwiill10';

/** A typeface that is not there is set in the one that is named after it, whichever that is. */
const isInstalled = (face: string): boolean => {
  const pen = penOf(newCanvas(1, 1));
  const width = (family: string) => {
    pen.font = `72px ${family}`;
    return pen.measureText(PROBE).width;
  };
  return ['monospace', 'serif'].some((other) => width(`${named(face)}, ${other}`) !== width(other));
};

/** Whether letters can be drawn in it here. A typeface of the studio's own is fetched for that. */
export const hasFace = async (face: string, weight: number, text: string): Promise<boolean> => {
  if (isGeneric(face)) return true;
  if (!isOwnFace(face)) return isInstalled(face);
  const loaded = await document.fonts.load(`${weight} 20px ${named(face)}`, text).catch(() => []);
  return loaded.length > 0;
};

/** @param pitchMm of the lens: letters are drawn finer than it shows them. */
export const drawTitle = async (wish: TypedWish, pitchMm: number): Promise<DrawnTitle> => {
  const isThere = await hasFace(wish.face, wish.weight, wish.text);
  const typeface = { weight: wish.weight, family: familyOf(isThere ? wish.face : LACKING) };
  const capEm = measureCap(penOf(newCanvas(MEASURED_ROOM, MEASURED_ROOM)), typeface);
  const letters = { ...wish, ...typeface, capEm };
  const pxPerMm = Math.max(PX_PER_MM, PX_PER_RIB / pitchMm);
  const layout: Layout = layOutWithin(penOf(newCanvas(1, 1)), letters, pxPerMm, ROOM);
  const canvas = newCanvas(layout.width, layout.height);
  drawLetters(penOf(canvas), letters, layout);
  return {
    file: await pngOf(canvas),
    typed: {
      ...wish,
      pxPerMm: layout.pxPerMm,
      ...(isThere ? {} : { instead: LACKING }),
    },
  };
};
