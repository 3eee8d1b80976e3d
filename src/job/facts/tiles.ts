/** The job's tiles: how the print is split over its lens sheets, and a page for each. */
import type { PagePlan } from '../../core/sheet/page-layout.ts';
import { GAP_MM, pageSpecOf, reachOf } from '../../core/sheet/page-layout.ts';
import type { PageSpec } from '../../core/sheet/page-spec.ts';
import type { Tile, Tiling } from '../../core/sheet/tiles.ts';
import { layingOrder, tilingOf } from '../../core/sheet/tiles.ts';
import { tracedGap } from '../../core/lens/traced.ts';
import { trimmed } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { MM_PER_INCH, dpi, mm, mmToInch, wholeDots } from '../../core/units/units.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import type { PaperChoice } from './page.ts';
import { ROUNDING_MM, labelOf, layOnPage, overhangOf, pageOf, papersBySize } from './page.ts';
import type { Page } from '../schema/page.ts';
import { bleedMmOf, lensOf, printedLensPitch, sheetDensity, sheetSpecOf } from './sheet.ts';
import type { Tiles } from '../schema/tiles.ts';
import { MOST_TILES_A_WAY } from '../schema/tiles.ts';

/** A rail can be judged when this much of it lies under the lens (ours, no source). */
export const RAIL_SEEN_MM = 2;

/**
 * The tiles, or the defaults: off. A lens edge is cut off by overlap, gap and 4 mm, so that a few millimetres
 * of rail can be judged before the cut (ours, no source).
 */
export const tilesOf = (job: Job): Tiles =>
  job.tiles ?? {
    on: false,
    lensAcrossMm: 300,
    lensAlongMm: 400,
    cutOffMm: 8,
    overlapMm: 3,
    paper: 'smallest',
  };

export const setTiles = (job: Job, change: ChangeOf<Tiles>): Job => ({
  ...job,
  tiles: changed(tilesOf(job), change),
});

type SplitField = 'across' | 'along' | 'cutOff';

export type Split =
  | { readonly ok: true; readonly tiling: Tiling }
  | { readonly ok: false; readonly field: SplitField; readonly message: string };

const refused = (field: SplitField, message: string): Split => ({ ok: false, field, message });

/** The print split over its lens sheets, whether tiles are on or not. */
export const splitOf = (job: Job): Split => {
  const { lensAcrossMm, lensAlongMm, cutOffMm, across, along } = tilesOf(job);
  const sheet = sheetSpecOf(job);
  const pitchMm = printedLensPitch(job);
  const usableAcrossMm = lensAcrossMm - 2 * cutOffMm;
  const usableAlongMm = lensAlongMm - 2 * cutOffMm;
  if (usableAcrossMm < 2 * pitchMm || usableAlongMm < 2)
    return refused(
      'cutOff',
      `Nothing is left of a lens sheet of ${trimmed(lensAcrossMm, 1)} × ${trimmed(lensAlongMm, 1)} mm ` +
        `once ${trimmed(cutOffMm, 1)} mm are cut off each edge.`,
    );
  const bleed = (density: number) => wholeDots(mm(bleedMmOf(job)), dpi(density));
  const tiling = tilingOf({
    sheet,
    bleedAcrossDots: bleed(sheet.acrossDpi),
    bleedAlongDots: bleed(sheet.alongDpi),
    pitchMm,
    usableAcrossMm,
    usableAlongMm,
    tilesAcross: across,
    tilesAlong: along,
  });
  for (const [field, count] of [
    ['across', across ?? tiling.leastAcross],
    ['along', along ?? tiling.leastAlong],
  ] as const)
    if (count > MOST_TILES_A_WAY)
      return refused(
        field,
        `This print would need ${count} tiles ${field} the ribs, and ${MOST_TILES_A_WAY} is the most. Use larger lens sheets.`,
      );
  return { ok: true, tiling };
};

/** How much larger the largest tile is than a lens sheet after its edges are cut off; 0: it fits. */
export const tooLargeBy = (job: Job, tiling: Tiling): { acrossMm: number; alongMm: number } => {
  const { lensAlongMm, cutOffMm } = tilesOf(job);
  const over = Math.max(0, tiling.mostRibs - tiling.ribsOnLens) * printedLensPitch(job);
  const past = tiling.longestMm - (lensAlongMm - 2 * cutOffMm);
  return { acrossMm: over, alongMm: past > ROUNDING_MM ? past : 0 };
};

/** How much of the rails lies under the lens before it is cut; below 0: they lie beside it. */
export const railUnderLensMm = (job: Job): number => {
  const { cutOffMm, overlapMm } = tilesOf(job);
  return cutOffMm - overlapMm - GAP_MM;
};

/** Middle of a tile across the ribs, from the whole's middle; to the right (lying: down) positive. */
export const tileMiddleMm = ({ across }: Tile): number => (across.fromMm + across.toMm) / 2;

/** How many zones a tile is off when the eye is in front of the tile's own middle. */
export const zonesOff = (job: Job, tile: Tile): number =>
  (Math.abs(tileMiddleMm(tile)) * tracedGap(lensOf(job))) /
  (job.print.viewingDistanceMm * printedLensPitch(job));

/** Where the eye must be to see in a tile what the whole print shows from its middle. */
export const eyeWords = (job: Job, tile: Tile, unit: LengthUnit = 'mm'): string => {
  const off = tileMiddleMm(tile);
  if (Math.abs(off) < 0.5) return 'before its middle';
  const [lower, higher] = job.ribs === 'upright' ? ['left of', 'right of'] : ['above', 'below'];
  const far = unit === 'mm' ? trimmed(Math.abs(off), 0) : trimmed(mmToInch(mm(Math.abs(off))), 1);
  return `${far} ${unit} ${off > 0 ? lower : higher} its middle`;
};

/** Sides where another tile follows. */
export const seamsOf = ({ rows, columns }: Tiling, { row, column }: Tile): string[] => [
  ...(row > 0 ? ['top'] : []),
  ...(column > 0 ? ['left'] : []),
  ...(column < columns - 1 ? ['right'] : []),
  ...(row < rows - 1 ? ['bottom'] : []),
];

export const tileName = ({ rows, columns }: Tiling, { row, column }: Tile): string =>
  `Row ${row + 1} of ${rows}, tile ${column + 1} of ${columns}`;

/** Places in the order of laying, from 1, by tile. */
export const laidAs = (tiling: Tiling): ReadonlyMap<Tile, number> =>
  new Map(layingOrder(tiling).map((tile, place) => [tile, place + 1]));

/** A tile's print in millimetres, to the dot. */
const sizeOf = (job: Job, { trim }: Tile) => {
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  return {
    widthMm: ((trim.right - trim.left) * MM_PER_INCH) / horizontalDpi,
    heightMm: ((trim.bottom - trim.top) * MM_PER_INCH) / verticalDpi,
  };
};

const loadOf = (job: Job, tiling: Tiling, tile: Tile, date?: string) => {
  const seams = seamsOf(tiling, tile);
  return {
    ...sizeOf(job, tile),
    heading: tileName(tiling, tile),
    label: !pageOf(job).label
      ? []
      : [
          ...labelOf(job, date, tiling.tiles.length),
          `${seams.length === 0 ? 'No seams' : `Seams ${seams.join(', ')}`}. Align it with the eye ` +
            `${eyeWords(job, tile)}, ${trimmed(job.print.viewingDistanceMm, 0)} mm away.`,
        ],
  };
};

const pageWith = (job: Job, choice: Partial<Page>): Page => {
  // A tile lies in the middle of its paper; the place of a single print does not apply.
  const { place: _place, ...page } = pageOf(job);
  const { overlapMm } = tilesOf(job);
  return { ...page, on: true, bleedMm: overlapMm, ...choice };
};

/** The largest tile, and the first and last, whose labels may be longer. */
const tellingTiles = ({ tiles, mostRibs, longestMm }: Tiling): Tile[] => {
  const largest = tiles.find(
    ({ across, along }) =>
      across.ribs === mostRibs && along.toMm - along.fromMm > longestMm - ROUNDING_MM,
  );
  return [largest, tiles[0], tiles.at(-1)].filter((tile) => tile !== undefined);
};

const overhangOn = (job: Job, tiling: Tiling, page: Page) => {
  const each = tellingTiles(tiling).map((tile) =>
    overhangOf(job, layOnPage(page, loadOf(job, tiling, tile))),
  );
  return {
    pictureMm: Math.max(...each.map(({ pictureMm }) => pictureMm)),
    allMm: Math.max(...each.map(({ allMm }) => allMm)),
  };
};

/** A page just large enough for every tile with what is printed around it. */
const pageJustSo = (job: Job, tiling: Tiling): Page => {
  const page = pageWith(job, { paper: 'own' });
  const { left, top, right, bottom } = page.marginsMm;
  const needs = tellingTiles(tiling).map((tile) => {
    const load = loadOf(job, tiling, tile);
    const reach = reachOf(layOnPage(page, load));
    return {
      width: left + reach.left + load.widthMm + reach.right + right,
      height: top + reach.top + load.heightMm + reach.bottom + bottom,
    };
  });
  return {
    ...page,
    paperWidthMm: Math.max(50, ...needs.map(({ width }) => Math.ceil(width))),
    paperHeightMm: Math.max(50, ...needs.map(({ height }) => Math.ceil(height))),
  };
};

export interface TilePaper {
  readonly page: Page;
  /** Millimetres past the printable area; above 0: it does not fit. */
  readonly pictureMm: number;
  readonly allMm: number;
  /** The listed paper that the studio took; left out: none is large enough, or the person chose one. */
  readonly choice?: PaperChoice;
}

const onto = (job: Job, tiling: Tiling, page: Page): TilePaper => ({
  page,
  ...overhangOn(job, tiling, page),
});

/** The paper all tiles are printed on. */
export const tilePaperOf = (job: Job, tiling: Tiling): TilePaper => {
  const { paper, paperWidthMm, paperHeightMm } = tilesOf(job);
  if (paper === 'smallest') {
    for (const choice of papersBySize()) {
      const laid = onto(job, tiling, pageWith(job, choice));
      if (laid.allMm <= ROUNDING_MM) return { ...laid, choice };
    }
    return onto(job, tiling, pageJustSo(job, tiling));
  }
  const size = {
    ...(paperWidthMm === undefined ? {} : { paperWidthMm }),
    ...(paperHeightMm === undefined ? {} : { paperHeightMm }),
  };
  const [upright, onItsSide] = [false, true].map((side) =>
    onto(job, tiling, pageWith(job, { paper, onItsSide: side, ...size })),
  ) as [TilePaper, TilePaper];
  return onItsSide.allMm < upright.allMm ? onItsSide : upright;
};

/** A tile on its paper, in millimetres. Its corner is rounded to the dot, so that marks meet the trim. */
const tilePlanOf = (
  job: Job,
  tiling: Tiling,
  tile: Tile,
  page: Page,
  barIn: 'mm' | 'in',
  date?: string,
): PagePlan => {
  const plan = layOnPage(page, loadOf(job, tiling, tile, date), barIn);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const toDot = (length: number, density: number) =>
    (wholeDots(mm(length), dpi(density)) * MM_PER_INCH) / density;
  return {
    ...plan,
    leftMm: toDot(plan.leftMm, horizontalDpi),
    topMm: toDot(plan.topMm, verticalDpi),
  };
};

/** For the person: "row 1, tile 2". */
export const shortTileName = ({ row, column }: Tile): string =>
  `row ${row + 1}, tile ${column + 1}`;

/** What is woven for a tile: a page that shows the tile's window of the whole sheet. */
export const tilePageOf = (
  job: Job,
  tiling: Tiling,
  tile: Tile,
  page: Page,
  barIn: 'mm' | 'in',
  date: string,
): PageSpec =>
  pageSpecOf(tilePlanOf(job, tiling, tile, page, barIn, date), sheetSpecOf(job), tile.trim);
