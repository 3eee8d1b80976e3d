/** The map of ghosts of the open job's flip, from the proof's pictures, and what would help. */
import type { GhostMap, GhostPlace, LightGrid } from '../../core/plan/ghost-map.ts';
import { ghostMap, ghostPlaces, worseOf } from '../../core/plan/ghost-map.ts';
import { luminanceGrid, mixedGrid, trimmedGrids } from '../../core/proof/ghost-grids.ts';
import type { GridSize } from '../../core/proof/ghost-grids.ts';
import type { Picture } from '../../core/proof/scene.ts';
import { easeMasks } from '../../core/plan/ghost-ease.ts';
import type { EaseMask } from '../../core/weave/ease.ts';
import { easedGrid } from '../../core/weave/ease.ts';
import type { GhostCure } from '../../job/edits/ghost-cures.ts';
import { easeCure, ghostCuresOf } from '../../job/edits/ghost-cures.ts';
import type { PictureSeen } from '../../job/facts/flip-seen.ts';
import { picturesSeen } from '../../job/facts/flip-seen.ts';
import { easeOf } from '../../job/facts/ghost-ease.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Prepared } from '../../state/work.ts';
import { proofSourcesOf } from './proof-scene.ts';

/** What an eye sees that should see one picture. */
export interface GhostView extends GhostMap {
  readonly picture: number;
  readonly columns: number;
  readonly rows: number;
  /** The worst first. */
  readonly places: readonly GhostPlace[];
}

/** A cell is about a millimetre of a usual print; more cells show nothing more of its ghosts. */
const MOST_CELLS = 160;

const sizeOf = ({ widthMm, heightMm }: { widthMm: number; heightMm: number }): GridSize => {
  const longest = Math.max(widthMm, heightMm);
  const cells = (length: number) => Math.max(9, Math.round((MOST_CELLS * length) / longest));
  return { columns: cells(widthMm), rows: cells(heightMm) };
};

const farFrom = ({ from, to }: PictureSeen, slot: number): number =>
  Math.abs((from + to - 1) / 2 - slot);

/** The picture of the flip that a slot is of, or nearest to. */
const pictureAt = (seen: readonly PictureSeen[], slot: number): number =>
  seen.reduce((best, one) => (farFrom(one, slot) < farFrom(best, slot) ? one : best)).picture;

/** Remembers the grids of pictures, which change with the frames alone. */
export const createGhostMapper = () => {
  const kept = new WeakMap<Picture, { readonly key: string; readonly grid: LightGrid }>();
  const gridOf = (picture: Picture, size: GridSize): LightGrid => {
    const key = `${size.columns} ${size.rows}`;
    const known = kept.get(picture);
    if (known?.key === key) return known.grid;
    const grid = luminanceGrid(picture, size);
    kept.set(picture, { key, grid });
    return grid;
  };

  /**
   * Undefined while frames are prepared; empty for what is no flip.
   * @param tried the job's lowered contrast is not in the prepared pictures yet
   */
  const viewsOf = (
    job: Job,
    prepared: ReadonlyMap<string, Prepared>,
    tried = false,
  ): readonly GhostView[] | undefined => {
    const seen = picturesSeen(job);
    const sources = proofSourcesOf(job, prepared);
    const ready = sources.pictures.filter((picture) => picture !== undefined);
    if (ready.length < sources.pictures.length) return undefined;
    if (seen.length < 2 || ready.length === 0) return [];
    const size = sizeOf(sources);
    const { pictures } = slotPicturesOf(job);
    const grids = ready.map((picture, at) => {
      const grid = gridOf(picture, size);
      const { frame, ground } = pictures[at] ?? {};
      const mask = tried && ground === undefined ? easeOf(job, frame?.id ?? '') : undefined;
      return mask === undefined ? grid : easedGrid(grid, size, mask);
    });
    const mixes = sources.mixes.map((mix) => mixedGrid(grids, mix, size, sources.lenticules));
    const plain = { contents: [...grids, ...mixes], slots: sources.slots };
    const { trim, ribs } = sources;
    const woven = trim === undefined ? plain : trimmedGrids(plain, size, ribs, trim);
    return seen.flatMap(({ picture, from, to, eyes }): GhostView[] => {
      // A guard that shows something of this picture too counts as the one that it leads to.
      const others = seen.filter((one) => one.picture !== picture);
      const belongs = woven.contents.map((_, content) => {
        const at = woven.slots.indexOf(content);
        return at >= from && at < to ? picture : pictureAt(others, at);
      });
      const map = worseOf(
        eyes.flatMap(({ slot, shares }) => {
          // A title before or behind the print stands at another place in each slot.
          const wanted = plain.contents[plain.slots[slot] ?? -1];
          if (wanted === undefined) return [];
          return [ghostMap({ ...woven, shares, belongs, own: picture, wanted })];
        }),
      );
      return [{ picture, ...size, ...map, places: ghostPlaces(size, map) }];
    });
  };

  return { viewsOf };
};

export const worstOf = (views: readonly GhostView[]): number =>
  Math.max(0, ...views.map(({ places }) => places[0]?.steps ?? 0));

/** A cure with what it leaves. */
export interface CureTried extends GhostCure {
  readonly worst: number;
}

/** Less of a gain is not worth a press. */
const WORTH = 0.9;
/** Just noticeable in the best case: below it nobody sees a ghost. */
export const SEEN_STEPS = 1;

/** Each round takes what the one before has left. */
const ROUNDS = 4;

/** Undefined where the contrast is lowered already, or lowering it reaches nothing. */
const easeTried = async (
  viewsOf: ReturnType<typeof createGhostMapper>['viewsOf'],
  job: Job,
  prepared: ReadonlyMap<string, Prepared>,
): Promise<CureTried | undefined> => {
  if (job.ghostEase !== undefined) return undefined;
  let masks = new Map<number, EaseMask>();
  let found: CureTried | undefined;
  let views = viewsOf(job, prepared) ?? [];
  for (let round = 0; round < ROUNDS && worstOf(views) >= SEEN_STEPS; round += 1) {
    await new Promise((resolve) => setTimeout(resolve));
    masks = easeMasks(views, masks);
    const cure = easeCure(masks);
    views = viewsOf(cure.edit[1](job), prepared, true) ?? [];
    const worst = worstOf(views);
    if (found === undefined || worst < found.worst) found = { ...cure, worst };
  }
  return found;
};

/** The best of each kind; of guard slots the fewest that leave no ghost to see, else those that leave least. */
export const curesTried = async (
  { viewsOf }: ReturnType<typeof createGhostMapper>,
  job: Job,
  prepared: ReadonlyMap<string, Prepared>,
  signal: AbortSignal,
): Promise<readonly CureTried[]> => {
  const now = worstOf(viewsOf(job, prepared) ?? []);
  const best = new Map<GhostCure['kind'], CureTried>();
  for (const cure of ghostCuresOf(job)) {
    // One after the other: the page stays free.
    await new Promise((resolve) => setTimeout(resolve));
    if (signal.aborted) return [];
    const before = best.get(cure.kind);
    if (before !== undefined && before.worst < SEEN_STEPS) continue;
    const worst = worstOf(viewsOf(cure.edit[1](job), prepared) ?? []);
    if (worst < WORTH * (before?.worst ?? now)) best.set(cure.kind, { ...cure, worst });
  }
  const eased = await easeTried(viewsOf, job, prepared);
  if (signal.aborted) return [];
  if (eased !== undefined && eased.worst < WORTH * now) best.set('contrast', eased);
  return [...best.values()].sort((a, b) => a.worst - b.worst);
};
