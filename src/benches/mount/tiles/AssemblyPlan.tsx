/** How the tiles become one print: the steps in order, with this job's numbers, and the cautions. */
import type { Tiling } from '../../../core/sheet/tiles.ts';
import { layingOrder } from '../../../core/sheet/tiles.ts';
import { formatLengthRough, trimmed } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import { sayInPlace } from '../../../job/facts/flip-changes.ts';
import { aroundOf } from '../../../job/facts/mount/around.ts';
import { tileNumbers } from '../../../job/facts/tile-numbers.ts';
import { tileName, tilesOf } from '../../../job/facts/tiles.ts';
import type { Job } from '../../../job/schema/job.ts';
import { cautionWords, GIVE_WAY } from '../../../job/words/cautions.ts';
import { useJob, useUnits } from '../../studio.ts';
import { fine } from './TileFigures.tsx';
import { Prose } from '../../../ui/index.ts';
import { MountPart } from '../MountPart.tsx';
import styles from './tiles.module.css';

interface Step {
  readonly title: string;
  readonly text: string;
  readonly why: string;
}

const printing = (job: Job): Step => {
  const { label, bar } = aroundOf(job);
  return {
    title: 'Print all tiles in one go.',
    text: `Same paper, same setting, all the same way through the printer${label ? ' (the arrow)' : ''}, at 100 %. Measure ${bar ? 'the bar on each' : 'each'}: all must be alike.`,
    why: 'Tiles that stretch differently do not meet, and each has another pitch.',
  };
};

const aligning = (job: Job, tiling: Tiling, units: 'mm' | 'in'): Step => {
  const { eachMm, ownMiddleZones } = tileNumbers(job, tiling);
  const distance = `${formatLengthRough(mm(job.print.viewingDistanceMm), units)} ${units}`;
  const { rails: hasRails, label } = aroundOf(job);
  const rails = hasRails ? 'until the rails are even from end to end, then shift' : 'and shift';
  return {
    title: 'Lay each lens on its tile by itself.',
    text: `Square it ${rails} it across the ribs until ${sayInPlace(job)}, within ${fine(eachMm, units)}: with the eye ${distance} away and where ${label ? 'the tile’s label and the table say' : 'the table says'}, not before the tile’s own middle.`,
    why: `From its own middle the outermost tile must show another part of the zone, ${trimmed(ownMiddleZones, 2)} of one away: aligned there it would jump at its seams.`,
  };
};

const cutting = (job: Job, units: 'mm' | 'in'): Step => {
  const { overlapMm } = tilesOf(job);
  const { marks } = aroundOf(job);
  const [sides, ends] =
    job.ribs === 'upright'
      ? ['left and right', 'top and bottom']
      : ['top and bottom', 'left and right'];
  return {
    title: 'Stick it, then cut lens and print together.',
    text: `First ${sides}, the blade along a metal rule held in the groove at ${marks ? 'the crop marks' : 'the tile’s edge'}, so that as many ribs are left as the table says; then ${ends}, ${marks ? 'from mark to mark' : 'to the size in the table'}. ${overlapMm > 0 ? `${formatLengthRough(mm(overlapMm), units)} ${units} of the neighbours’ picture fall away all round.` : 'There is no overlap: a cut outside the tile shows bare paper.'}`,
    why: 'What lies beneath a lens must end where the lens ends: only then do two tiles make one picture. A rib too many or too few doubles or drops a strip at the seam.',
  };
};

const laying = (job: Job, tiling: Tiling): Step => {
  const first = layingOrder(tiling)[0];
  const [line, row, next] =
    job.ribs === 'upright'
      ? ['an upright and a level line', 'left and right', 'above and below, rib on rib']
      : ['a level and an upright line', 'above and below', 'left and right, rib on rib'];
  return {
    title: 'Lay them from the middle outward.',
    text: `Draw ${line} through the middle of a flat, stiff board. Begin with ${first === undefined ? 'the middle tile' : tileName(tiling, first).toLowerCase()}, then outward ${row}, then the rows ${next}, in the order of the numbers.`,
    why: 'Small errors of butting add up from where one begins: from the middle they reach only half as far as from an edge.',
  };
};

const closing = (job: Job, tiling: Tiling, units: 'mm' | 'in'): Step => {
  const { pitchMm, agreeMm } = tileNumbers(job, tiling);
  return {
    title: 'Look across each seam before you press it down.',
    text: `From the middle of the whole both sides must turn together; they may differ by ${fine(agreeMm, units)} under the lens, no more. Push the edges together: half a rib, ${fine(pitchMm / 2, units)}, is a gap one sees.`,
    why: 'A gap is only a line. Two tiles that turn at different moments are seen at once.',
  };
};

const HEAVY =
  'Large lens sheets are heavy and their edges are sharp: lift them with two people, wear gloves, and hang the board from fixings that are rated for its weight in that wall.';

export const AssemblyPlan = ({ tiling }: { readonly tiling: Tiling }) => {
  const job = useJob();
  const units = useUnits();
  const steps = [
    printing(job),
    aligning(job, tiling, units),
    cutting(job, units),
    laying(job, tiling),
    closing(job, tiling, units),
  ];
  return (
    <MountPart title="Assembly plan">
      <ol className={styles['steps']}>
        {steps.map(({ title, text, why }) => (
          <li key={title}>
            <strong>{title}</strong> {text} <Prose as="span">{why}</Prose>
          </li>
        ))}
      </ol>
      <ul className={styles['cautions']}>
        {[
          `Heavy sheets: ${HEAVY}`,
          ...(['blades', 'edges', 'adhesives', 'rollers'] as const).map(
            (kind) => `${cautionWords[kind].of}: ${cautionWords[kind].say}`,
          ),
        ].map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <Prose>{GIVE_WAY}</Prose>
    </MountPart>
  );
};
