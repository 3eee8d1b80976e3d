/**
 * Where pictures shine through one another: for an eye that should see one picture of a flip, the difference to that
 * picture alone, in steps that a person just notices.
 *
 * What the eye sees is the sum of all slots by their shares (relation 8). What of it is the picture's own is found by
 * least squares, a gain and a veil over the whole print: a ghost is what is left. Detail that the pictures have in
 * common is therefore no ghost, nor is an even veil, which only costs contrast.
 */
import { PAPER_WHITE, noticeableIndex } from '../colour/just-noticeable.ts';

/** Light of a picture: row-major, relative to paper white, 0 … 1; length columns × rows. */
export type LightGrid = Float32Array;

export interface GhostScene {
  /** What the slots show, each once, as it is woven; all of one size. */
  readonly contents: readonly LightGrid[];
  /** By view slot: what it shows, as an index. */
  readonly slots: readonly number[];
  /** By view slot: its share in what the eye sees; they sum to 1. */
  readonly shares: readonly number[];
  /** By content: the number of the picture that it is, or that a guard leads to. */
  readonly belongs: readonly number[];
  /** Number of the picture that should be seen. */
  readonly own: number;
  /** That picture, before ghosts were taken from it. */
  readonly wanted: LightGrid;
}

export interface GhostMap {
  /** Just noticeable steps by cell, 0 or more. */
  readonly steps: Float32Array;
  /** By cell: number of the picture that most of it comes from. */
  readonly from: Uint8Array;
}

/** Rounds of light to an index: the function is slow, and a thousandth of white is a small part of a step. */
const LEVELS = 2048;
const indexOfLight = Float32Array.from({ length: LEVELS + 1 }, (_, level) =>
  noticeableIndex((level / LEVELS) * PAPER_WHITE),
);
const indexAt = (light: number): number => {
  const at = Math.min(1, Math.max(0, light)) * LEVELS;
  const low = Math.min(LEVELS - 1, Math.floor(at));
  return indexOfLight[low]! + (at - low) * (indexOfLight[low + 1]! - indexOfLight[low]!);
};

const meanOf = (grid: LightGrid): number =>
  grid.reduce((sum, light) => sum + light, 0) / grid.length;

/** Share of each content: of all slots that show it. */
const shareOfContents = ({ contents, slots, shares }: GhostScene): number[] => {
  const sums = contents.map(() => 0);
  slots.forEach((content, slot) => (sums[content] = sums[content]! + (shares[slot] ?? 0)));
  return sums;
};

/** Gain and veil by which the seen light is nearest the picture that is wanted. */
const ownPart = (seen: LightGrid, wanted: LightGrid): { gain: number; veil: number } => {
  const [meanSeen, meanWanted] = [meanOf(seen), meanOf(wanted)];
  let [both, own] = [0, 0];
  for (let i = 0; i < seen.length; i += 1) {
    const w = wanted[i]! - meanWanted;
    both += w * (seen[i]! - meanSeen);
    own += w * w;
  }
  // An even picture has no detail to judge a gain by.
  const gain = own > 1e-9 * seen.length ? Math.max(0, both / own) : 0;
  return { gain, veil: meanSeen - gain * meanWanted };
};

/** By cell: the picture whose light stands out most from its mean there. */
const sourcesOf = (
  { contents, belongs, own }: GhostScene,
  share: readonly number[],
): Uint8Array => {
  const size = contents[0]?.length ?? 0;
  const from = new Uint8Array(size).fill(own);
  const most = new Float32Array(size);
  contents.forEach((grid, content) => {
    if (belongs[content] === own || share[content] === 0) return;
    const mean = meanOf(grid);
    for (let i = 0; i < size; i += 1) {
      const part = share[content]! * Math.abs(grid[i]! - mean);
      if (part <= most[i]!) continue;
      most[i] = part;
      from[i] = belongs[content]!;
    }
  });
  return from;
};

export const ghostMap = (scene: GhostScene): GhostMap => {
  const { contents, wanted } = scene;
  const share = shareOfContents(scene);
  const seen = new Float32Array(wanted.length);
  contents.forEach((grid, content) => {
    for (let i = 0; i < seen.length; i += 1) seen[i] = seen[i]! + share[content]! * grid[i]!;
  });
  const { gain, veil } = ownPart(seen, wanted);
  const steps = seen.map((light, i) =>
    Math.abs(indexAt(light) - indexAt(gain * wanted[i]! + veil)),
  );
  return { steps, from: sourcesOf(scene, share) };
};

/** By cell the worse of several maps of one size. */
export const worseOf = ([first, ...others]: readonly GhostMap[]): GhostMap => {
  const [steps, from] = [Float32Array.from(first?.steps ?? []), Uint8Array.from(first?.from ?? [])];
  for (const other of others)
    for (let i = 0; i < steps.length; i += 1)
      if (other.steps[i]! > steps[i]!) {
        steps[i] = other.steps[i]!;
        from[i] = other.from[i]!;
      }
  return { steps, from };
};

/** A place of the print where a picture shines through. */
export interface GhostPlace {
  /** Middle of the place, shares of the print's width and height. */
  readonly x: number;
  readonly y: number;
  /** Mean of the place. */
  readonly steps: number;
  readonly from: number;
}

/** Places are judged over a ninth of the print's width and height each: a ghost of one dot is no ghost. */
const ACROSS = 9;

/** The picture that most cells of a place have. */
const commonest = (counts: ReadonlyMap<number, number>): number =>
  [...counts].reduce((best, one) => (one[1] > best[1] ? one : best))[0];

/** The worst first. */
export const ghostPlaces = (
  { columns, rows }: { readonly columns: number; readonly rows: number },
  { steps, from }: GhostMap,
): GhostPlace[] => {
  const places: GhostPlace[] = [];
  for (let down = 0; down < ACROSS; down += 1)
    for (let across = 0; across < ACROSS; across += 1) {
      const [left, right] = [across, across + 1].map((at) => Math.round((at * columns) / ACROSS));
      const [top, bottom] = [down, down + 1].map((at) => Math.round((at * rows) / ACROSS));
      const counts = new Map<number, number>();
      let [sum, cells] = [0, 0];
      for (let row = top!; row < bottom!; row += 1)
        for (let column = left!; column < right!; column += 1) {
          const i = row * columns + column;
          sum += steps[i]!;
          cells += 1;
          counts.set(from[i]!, (counts.get(from[i]!) ?? 0) + steps[i]!);
        }
      if (cells === 0) continue;
      places.push({
        x: (across + 0.5) / ACROSS,
        y: (down + 0.5) / ACROSS,
        steps: sum / cells,
        from: commonest(counts),
      });
    }
  return places.sort((a, b) => b.steps - a.steps);
};
