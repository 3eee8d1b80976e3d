/** Sizes and shapes of the frames, among themselves and against the print. */

export interface Sized {
  readonly name: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Shapes closer than this share count as the same: half a per cent is a millimetre on a 200 mm print. */
export const SHAPE_TOLERANCE = 0.005;

/** Whether two shapes (width over height, above 0) differ so much that it shows. */
export const shapesDiffer = (a: number, b: number): boolean =>
  Math.max(a, b) / Math.min(a, b) > 1 + SHAPE_TOLERANCE;

const shapeOf = ({ widthPx, heightPx }: Sized): number => widthPx / heightPx;

export interface OddFrame<T extends Sized> {
  readonly frame: T;
  /** `shape`: will be cut or framed unlike the others. `size`: the same shape, coarser or finer. */
  readonly differs: 'shape' | 'size';
}

export interface SizeCheck<T extends Sized> {
  /** The size most frames have; of equals the one that comes first. */
  readonly usual: { readonly widthPx: number; readonly heightPx: number } | undefined;
  readonly odd: readonly OddFrame<T>[];
}

export const checkSizes = <T extends Sized>(frames: readonly T[]): SizeCheck<T> => {
  const groups = new Map<string, T[]>();
  for (const frame of frames) {
    const key = `${frame.widthPx}×${frame.heightPx}`;
    groups.set(key, [...(groups.get(key) ?? []), frame]);
  }
  let usual: T[] = [];
  for (const group of groups.values()) if (group.length > usual.length) usual = group;
  const [model] = usual;
  if (model === undefined) return { usual: undefined, odd: [] };
  const odd = frames
    .filter((frame) => frame.widthPx !== model.widthPx || frame.heightPx !== model.heightPx)
    .map((frame) => ({
      frame,
      differs: shapesDiffer(shapeOf(frame), shapeOf(model))
        ? ('shape' as const)
        : ('size' as const),
    }));
  return { usual: { widthPx: model.widthPx, heightPx: model.heightPx }, odd };
};

export const saySize = ({ widthPx, heightPx }: Omit<Sized, 'name'>): string =>
  `${widthPx} × ${heightPx} px`;

/** A sentence on one odd frame, with what it does to the print. */
export const sayOdd = ({ frame, differs }: OddFrame<Sized>, usual: Omit<Sized, 'name'>): string =>
  differs === 'shape'
    ? `${frame.name} is ${saySize(frame)}, another shape than the usual ${saySize(usual)}: its picture will jump against its neighbours.`
    : `${frame.name} is ${saySize(frame)}, the usual is ${saySize(usual)}: the shape is the same, only its detail differs.`;

/**
 * How many pixels of the picture's width stand behind one lenticule: below 1 the lens could show
 * more than the frame holds, far above it pixels are rendered that no lens can show.
 * @param areaAcrossPx width across the ribs, in frame pixels, of what prints.
 */
export const pixelsPerLenticule = (areaAcrossPx: number, lenticules: number): number =>
  areaAcrossPx / lenticules;
