/** The crosstalk matrix as a drawing and as a table. */
import { trimmed } from '../../core/units/format.ts';

export type Matrix = readonly (readonly number[])[];

export const LEVELS = 8;
/** Less than this is left blank, 0 … 1. */
const BLANK = 0.005;

export const percent = (share: number): string =>
  `${trimmed(100 * share, share < 0.0995 ? 1 : 0)} %`;

/** The share of the darkest shade: the greatest share, rounded up to a tenth. */
export const scaleOf = (matrix: Matrix): number =>
  Math.ceil(Math.max(...matrix.map((row) => Math.max(...row))) * 10 - 1e-9) / 10;

/** 0 blank, 1 … LEVELS from faint to full, in even steps of the share. */
const levelOf = (share: number, scale: number): number =>
  share < BLANK ? 0 : Math.min(LEVELS, Math.max(1, Math.ceil((share / scale) * LEVELS)));

/**
 * One path for each shade, so that two hundred slots draw as fast as six. The wanted view runs across, the seen
 * slot down, one unit for each cell. The path of a shade that no cell has is ''.
 */
export const shadePaths = (matrix: Matrix): string[] => {
  const scale = scaleOf(matrix);
  const paths = Array.from({ length: LEVELS }, () => '');
  matrix.forEach((row, view) =>
    row.forEach((share, slot) => {
      const level = levelOf(share, scale);
      if (level > 0) paths[level - 1] = `${paths[level - 1] ?? ''}M${view} ${slot}h1v1h-1z`;
    }),
  );
  return paths;
};

/** The slots that an eye in front of a view sees, greatest share first, as a sentence. `view` counts from 0. */
export const sayView = (matrix: Matrix, view: number): string => {
  const parts = (matrix[view] ?? [])
    .map((share, slot) => ({ share, slot }))
    .filter(({ share }) => share >= 0.01)
    .sort((a, b) => b.share - a.share);
  const named = parts.slice(0, 5).map(({ share, slot }) => `${percent(share)} slot ${slot + 1}`);
  const rest = parts.slice(5).reduce((sum, { share }) => sum + share, 0);
  const others = rest < 0.01 ? [] : [`${percent(rest)} of ${parts.length - 5} more`];
  return [...named, ...others].join(', ');
};

/** Nobody reads a larger square of figures. */
const WIDEST = 24;

/** The whole square; for many slots only the own share, the neighbours and the rest. */
export const mixTable = (matrix: Matrix): { head: string[]; rows: string[][] } => {
  const count = matrix.length;
  if (count <= WIDEST)
    return {
      head: ['Before view', ...matrix.map((_, slot) => `Slot ${slot + 1}, %`)],
      rows: matrix.map((row, view) => [
        `${view + 1}`,
        ...row.map((share) => trimmed(100 * share, 1)),
      ]),
    };
  return {
    head: ['Before view', 'Own, %', 'One left, %', 'One right, %', 'Further off, %'],
    rows: matrix.map((row, view) => {
      const own = row[view] ?? 0;
      const left = row[(view + count - 1) % count] ?? 0;
      const right = row[(view + 1) % count] ?? 0;
      const shares = [own, left, right, Math.max(0, 1 - own - left - right)];
      return [`${view + 1}`, ...shares.map((share) => trimmed(100 * share, 1))];
    }),
  };
};
