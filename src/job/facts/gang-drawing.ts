/** The drawing of several prints on one lens sheet, in millimetres from the sheet's top left corner in the file. */
import type { CutLine } from './gang-cut-list.ts';
import type { GangView } from './gang-view.ts';
import { OWN } from './gang.ts';

interface DrawnBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly name: string;
  readonly own: boolean;
  /** Of the usable ribs, from 1. */
  readonly fromRib: number;
  readonly toRib: number;
}

/** Prints in reading order. */
export const drawnBoxes = ({ grid, best, members }: GangView, upright: boolean): DrawnBox[] =>
  best.places
    .map(({ id, firstRib, ribs, topUm, alongUm }) => {
      const across = [grid.firstGrooveMm + firstRib * grid.pitchMm, ribs * grid.pitchMm] as const;
      const along = [grid.edgeMm + topUm / 1000, alongUm / 1000] as const;
      const [[x, width], [y, height]] = upright ? [across, along] : [along, across];
      return {
        x,
        y,
        width,
        height,
        name: members.find((member) => member.id === id)?.name ?? '',
        own: id === OWN,
        fromRib: firstRib + 1,
        toRib: firstRib + ribs,
      };
    })
    .sort((a, b) => a.y - b.y || a.x - b.x);

interface DrawnCut {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  /** From top to bottom. */
  readonly down: boolean;
  /** Through the whole sheet. */
  readonly whole: boolean;
}

export const drawnCuts = ({ grid, best }: GangView, upright: boolean): DrawnCut[] =>
  best.cuts.map(({ way, at, from, to, piece }) => {
    const acrossMm = (ribs: number) => grid.firstGrooveMm + ribs * grid.pitchMm;
    const alongMm = (um: number) => grid.edgeMm + um / 1000;
    const along = way === 'along';
    const place = along ? acrossMm(at) : alongMm(at);
    const [begin, end] = along ? [alongMm(from), alongMm(to)] : [acrossMm(from), acrossMm(to)];
    const down = along === upright;
    return {
      ...(down
        ? { x1: place, x2: place, y1: begin, y2: end }
        : { x1: begin, x2: end, y1: place, y2: place }),
      down,
      whole: piece.length === 0,
    };
  });

interface CutLabel {
  /** Middle of the text, CSS pixels. */
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

/** Numbers that are closer than this would overlap, CSS pixels. */
const APART = { down: 44, flat: 18 };
const OUTSIDE = 13;
const INSIDE = 26;

/**
 * Neighbouring cuts share one label: "3–4". The labels of cuts through the whole sheet stand outside it, those of a
 * strip inside, at its beginning.
 */
export const cutLabels = (
  cuts: readonly DrawnCut[],
  lines: readonly CutLine[],
  scale: number,
): CutLabel[] => {
  const labels: CutLabel[] = [];
  let begun: { first: number; at: number; piece: string } | undefined;
  const close = (next: number) => {
    if (begun === undefined) return;
    const [a, b] = [cuts[begun.first], cuts[next - 1]];
    if (a === undefined || b === undefined) return;
    const text = next - begun.first === 1 ? `${next}` : `${begun.first + 1}–${next}`;
    const aside = a.whole ? -OUTSIDE : a.down ? OUTSIDE + 4 : INSIDE;
    const x = ((a.x1 + b.x1) / 2) * scale + (a.down ? 0 : aside);
    const y = ((a.y1 + b.y1) / 2) * scale + (a.down ? aside : 0);
    labels.push({ x, y, text });
  };
  cuts.forEach((cut, index) => {
    const piece = `${lines[index]?.piece} ${cut.down}`;
    const at = (cut.down ? cut.x1 : cut.y1) * scale;
    const apart = cut.down ? APART.down : APART.flat;
    if (begun !== undefined && begun.piece === piece && at - begun.at < apart) return;
    close(index);
    begun = { first: index, at, piece };
  });
  close(cuts.length);
  return labels;
};
