/** What may keep the pictures of a flip apart: each is one step to undo. */
import { mostGuardSlots } from '../../core/frames/flip-ahead.ts';
import type { EaseMask } from '../../core/weave/ease.ts';
import { MOST_LEAK } from '../../core/weave/ghost.ts';
import { expectedLeak } from '../facts/expected-leak.ts';
import { trimByLeak } from '../facts/ghost.ts';
import { flipOf } from '../facts/sheet.ts';
import type { Job } from '../schema/job.ts';
import type { JobEdit } from './edit.ts';
import { editFlip } from './recipe.ts';

export interface GhostCure {
  readonly kind: 'guards' | 'removal' | 'order' | 'contrast';
  /** On its button. */
  readonly label: string;
  readonly edit: JobEdit;
}

/** A guard that mixes its neighbours lets half of each through; one of plain grey only a veil. */
const guardCures = (job: Job): GhostCure[] => {
  const flip = flipOf(job);
  const { recipe } = job;
  if (flip === undefined || recipe?.kind !== 'flip') return [];
  const most = mostGuardSlots({ ...flip, guardSlots: flip.viewSlots });
  const cureOf = (guardSlots: number, guard: typeof recipe.guard): GhostCure => ({
    kind: 'guards',
    label: `Use ${guardSlots} ${guard === 'grey' ? 'plain grey ' : ''}guard ${guardSlots === 1 ? 'slot' : 'slots'}`,
    edit: ['guard slots', (now) => editFlip(now, { guardSlots, guard })],
  });
  const from = Math.min(flip.guardSlots, most);
  const counts = Array.from({ length: most - from + 1 }, (_, at) => from + at);
  return [...new Set([recipe.guard, 'grey'] as const)].flatMap((guard) =>
    counts
      .filter((count) => count > 0 && (count !== from || guard !== recipe.guard))
      .map((count) => cureOf(count, guard)),
  );
};

const removalCure = (job: Job): GhostCure[] => {
  const leak = expectedLeak(job);
  if (job.ghostTrim !== undefined || !(leak > 0.001 && leak <= MOST_LEAK)) return [];
  return [
    {
      kind: 'removal',
      label: 'Use ghost removal',
      edit: ['ghost removal', (now) => trimByLeak(now, leak)],
    },
  ];
};

/** With more pictures there are too many orders to try them all. */
const MOST_ORDERED = 5;

const ordersOf = <T>(things: readonly T[]): T[][] =>
  things.length < 2
    ? [[...things]]
    : things.flatMap((one, at) =>
        ordersOf(things.filter((_, other) => other !== at)).map((rest) => [one, ...rest]),
      );

/** Orders with other neighbours: the same ones turned round, or begun elsewhere, ghost alike. */
const orderCures = (job: Job): GhostCure[] => {
  const { recipe } = job;
  if (recipe?.kind !== 'flip') return [];
  const { pictures } = recipe;
  const [first, ...others] = pictures;
  if (first === undefined || pictures.length < 4 || pictures.length > MOST_ORDERED) return [];
  const now = pictures.join(' ');
  return ordersOf(others)
    .map((rest) => [first, ...rest])
    .filter((order) => order.join(' ') !== now && (order[1] ?? '') < (order.at(-1) ?? ''))
    .map((order) => ({
      kind: 'order',
      label: `Show them in the order ${order.map((id) => pictures.indexOf(id) + 1).join(', ')}`,
      edit: ['order of the pictures', (job) => editFlip(job, { pictures: order })],
    }));
};

/** Lowers the contrast of the flip's pictures where these masks say. @param masks by number of the picture */
export const easeCure = (masks: ReadonlyMap<number, EaseMask>): GhostCure => ({
  kind: 'contrast',
  label: 'Lower the contrast in these places',
  edit: [
    'contrast against ghosts',
    (job) => {
      if (job.recipe?.kind !== 'flip') return job;
      const { pictures } = job.recipe;
      const byFrame = new Map<string, number[]>();
      for (const [picture, mask] of masks) {
        const frame = pictures[picture];
        if (frame === undefined || !mask.some((taken) => taken > 0)) continue;
        // A frame that is several pictures takes the most that any of them asks for.
        const before = byFrame.get(frame);
        byFrame.set(
          frame,
          mask.map((taken, cell) => Math.max(taken, before?.[cell] ?? 0)),
        );
      }
      if (byFrame.size === 0) return job;
      const eased = [...byFrame].map(([frame, cells]) => ({ frame, cells }));
      return { ...job, ghostEase: { masks: eased } };
    },
  ],
});

export const withoutEase: JobEdit = [
  'contrast against ghosts',
  (job) => {
    if (job.ghostEase === undefined) return job;
    const { ghostEase: _eased, ...rest } = job;
    return rest;
  },
];

export const ghostCuresOf = (job: Job): GhostCure[] => [
  ...guardCures(job),
  ...removalCure(job),
  ...orderCures(job),
];
