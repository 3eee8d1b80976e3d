/**
 * The cutting list: only cuts through a piece from edge to edge, as trimmers make them and knives along a rule. First
 * all cuts one way through the whole sheet, then each strip the other way, and so on. Places are whole ribs across
 * the ribs, and whole micrometres along them.
 */

/** Measured from the first groove and the first usable line of the grid. */
export interface GangBox {
  readonly firstRib: number;
  readonly ribs: number;
  readonly topUm: number;
  readonly alongUm: number;
}

/** Direction of the cut: along a groove, or across the ribs. */
export type CutWay = 'along' | 'across';

export interface GangCut {
  readonly way: CutWay;
  /** Along: the groove, as the number of ribs before it; across: micrometres. */
  readonly at: number;
  /** Start and end, in the other measure. */
  readonly from: number;
  readonly to: number;
  /** The side that is waste; `none`: prints on both sides. */
  readonly waste: 'before' | 'after' | 'none';
  /** From the edge of the piece, as the cuts before this one left it. */
  readonly fromEdge: number;
  /** The piece: [] is the whole sheet, [2] its second strip, [2, 1] the first part of that. */
  readonly piece: readonly number[];
}

interface Region {
  readonly along: readonly [from: number, to: number];
  readonly across: readonly [from: number, to: number];
  readonly piece: readonly number[];
}

/** Extent of a box in the measure of cuts in that direction. */
const extent = (box: GangBox, way: CutWay): readonly [number, number] =>
  way === 'along' ? [box.firstRib, box.firstRib + box.ribs] : [box.topUm, box.topUm + box.alongUm];

interface Group {
  readonly from: number;
  to: number;
  readonly boxes: GangBox[];
}

/** Groups of boxes that no cut in that direction can separate, in order. */
const groupsOf = (boxes: readonly GangBox[], way: CutWay): Group[] => {
  const sorted = [...boxes].sort((a, b) => extent(a, way)[0] - extent(b, way)[0]);
  const groups: Group[] = [];
  for (const box of sorted) {
    const [from, to] = extent(box, way);
    const last = groups.at(-1);
    if (last !== undefined && from < last.to) {
      last.to = Math.max(last.to, to);
      last.boxes.push(box);
    } else groups.push({ from, to, boxes: [box] });
  }
  return groups;
};

const other = (way: CutWay): CutWay => (way === 'along' ? 'across' : 'along');

/** The cuts in one direction through a region, from its first edge to its last. */
const cutsThrough = (region: Region, groups: readonly Group[], way: CutWay): GangCut[] => {
  const [from, to] = region[other(way)];
  const [start, end] = region[way];
  const cuts: GangCut[] = [];
  let edge = start;
  const cut = (at: number, waste: GangCut['waste']) => {
    cuts.push({ way, at, from, to, waste, fromEdge: at - edge, piece: region.piece });
    edge = at;
  };
  groups.forEach((group, number) => {
    if (group.from > edge) cut(group.from, 'before');
    const next = groups[number + 1]?.from ?? end;
    if (group.to < next) cut(group.to, 'after');
    else if (number < groups.length - 1) cut(group.to, 'none');
  });
  return cuts;
};

interface Stage {
  readonly depth: number;
  readonly cut: GangCut;
}

/** @param stuck true when the cuts in the other direction have just separated nothing. */
const divide = (
  region: Region,
  boxes: readonly GangBox[],
  way: CutWay,
  depth: number,
  stuck: boolean,
): Stage[] | undefined => {
  const groups = groupsOf(boxes, way);
  if (stuck && groups.length === 1 && boxes.length > 1) return undefined;
  const stages = cutsThrough(region, groups, way).map((cut) => ({ depth, cut }));
  const alone = groups.length === 1;
  for (const [number, group] of groups.entries()) {
    const rest: Region = {
      ...region,
      [way]: [group.from, group.to],
      piece: alone ? region.piece : [...region.piece, number + 1],
    };
    const tight =
      group.boxes.length === 1 &&
      extent(group.boxes[0]!, other(way)).join() === rest[other(way)].join();
    const inner = tight ? [] : divide(rest, group.boxes, other(way), depth + 1, alone);
    if (inner === undefined) return undefined;
    stages.push(...inner);
  }
  return stages;
};

/**
 * The cuts in order, starting in the direction that needs fewer; undefined where cuts from edge to edge cannot
 * separate all boxes.
 * @param sheet the whole lens sheet in the same measures.
 */
export const cuttingList = (
  sheet: Pick<Region, 'along' | 'across'>,
  boxes: readonly GangBox[],
): readonly GangCut[] | undefined => {
  if (boxes.length === 0) return [];
  const lists = (['along', 'across'] as const).flatMap((way) => {
    const stages = divide({ ...sheet, piece: [] }, boxes, way, 0, false);
    return stages === undefined ? [] : [stages];
  });
  const [best] = lists.sort((a, b) => a.length - b.length);
  // By stage; within a stage, as the pieces lie. Sorting is stable.
  return best?.sort((a, b) => a.depth - b.depth).map(({ cut }) => cut);
};
