/** Compares the sizes and shapes of frames with each other and with the print. */
import { nameInText } from '../names/shown.ts';
import { grouped } from './grouped.ts';

export interface Sized {
  readonly name: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Where it was placed by itself: then its shape and size are the person's own affair. */
  readonly place?: Placed | undefined;
}

interface Placed {
  readonly zoom: number;
  readonly right: number;
  readonly down: number;
  readonly turnDeg: number;
}

/** Shapes closer than this share count as equal: half a per cent is 1 mm on a 200 mm print. */
export const SHAPE_TOLERANCE = 0.005;

/** True when two shapes (width / height, above 0) differ visibly. */
export const shapesDiffer = (a: number, b: number): boolean =>
  Math.max(a, b) / Math.min(a, b) > 1 + SHAPE_TOLERANCE;

const shapeOf = ({ widthPx, heightPx }: Sized): number => widthPx / heightPx;

export interface OddFrame<T extends Sized> {
  readonly frame: T;
  /** `shape`: will be cut or framed differently from the others. `size`: same shape, coarser or finer. */
  readonly differs: 'shape' | 'size';
}

export interface SizeCheck<T extends Sized> {
  /** The size of most frames; among equals the first. */
  readonly usual: { readonly widthPx: number; readonly heightPx: number } | undefined;
  readonly odd: readonly OddFrame<T>[];
}

export const checkSizes = <T extends Sized>(frames: readonly T[]): SizeCheck<T> => {
  const groups = grouped(frames, ({ widthPx, heightPx }) => `${widthPx}×${heightPx}`);
  let usual: T[] = [];
  for (const group of groups.values()) if (group.length > usual.length) usual = group;
  const [model] = usual;
  if (model === undefined) return { usual: undefined, odd: [] };
  const odd = frames
    .filter(
      (frame) =>
        frame.place === undefined &&
        (frame.widthPx !== model.widthPx || frame.heightPx !== model.heightPx),
    )
    .map((frame) => ({
      frame,
      differs: shapesDiffer(shapeOf(frame), shapeOf(model))
        ? ('shape' as const)
        : ('size' as const),
    }));
  return { usual: { widthPx: model.widthPx, heightPx: model.heightPx }, odd };
};

export const saySize = ({ widthPx, heightPx }: Omit<Sized, 'name' | 'place'>): string =>
  `${widthPx} × ${heightPx} px`;

/** A sentence on one odd frame and its effect on the print. */
export const sayOdd = (
  { frame, differs }: OddFrame<Sized>,
  usual: Omit<Sized, 'name' | 'place'>,
): string =>
  differs === 'shape'
    ? `${nameInText(frame.name)} is ${saySize(frame)}, another shape than the usual ${saySize(usual)}: its picture will jump against its neighbours, unless it is placed by itself.`
    : `${nameInText(frame.name)} is ${saySize(frame)}, the usual is ${saySize(usual)}: the shape is the same, only its detail differs.`;

/**
 * Pixels of the picture across the ribs for each lenticule. Below 1 the lens could show more than the frame holds;
 * far above 1 pixels are rendered that no lens can show.
 * @param areaAcrossPx size of the printed area across the ribs, in frame pixels.
 */
export const pixelsPerLenticule = (areaAcrossPx: number, lenticules: number): number =>
  areaAcrossPx / lenticules;
