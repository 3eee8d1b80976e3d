/** A thing on the ruler, moved by pointer or keys: a drag is one step, quick presses fold into one. */
import { nameInText } from '../../../core/names/shown.ts';
import { depthMeasure, roundDepth } from '../../../core/units/depth-measure.ts';
import { setMark } from '../../../job/edits/depth-marks.ts';
import type { Job } from '../../../job/schema/job.ts';
import { depthMarksOf } from '../../../job/facts/plan.ts';
import { useChange, useUnits } from '../../studio.ts';
import type { Ruler } from '../../../preview/drawings/depth-ruler.ts';
import { useGrip } from '../../../ui/index.ts';

/** Where the ruler says "any distance" a thing needs a number. */
const FAR_MM = 100_000;

export const useMarkGrip = (job: Job, place: number, ruler: Ruler) => {
  const units = useUnits();
  const change = useChange();
  const kept = depthMarksOf(job)[place];
  const nearest = -0.98 * job.print.viewingDistanceMm;

  const move = (zMm: number, foldKey?: string) => {
    if (kept === undefined) return;
    const next = Math.max(nearest, Math.min(FAR_MM, zMm));
    change(
      `depth of ${kept.name === '' ? 'a thing' : nameInText(kept.name)}`,
      (now) => setMark(now, place, { zMm: next }),
      foldKey,
    );
  };
  // On the ruler as it was when the thing was taken.
  const { draft, handlers } = useGrip({
    take: () => ruler,
    pull: (on, { x }) => {
      const z = on.zAt(Math.max(on.left, Math.min(on.right, x)));
      return roundDepth(Math.max(nearest, Math.min(FAR_MM, z)), units);
    },
    drop: (zMm) => {
      if (zMm !== kept?.zMm) move(zMm);
    },
    step: (right, down, big) => {
      if (kept === undefined) return;
      const next = depthMeasure(units, kept.zMm).step(kept.zMm, right - down > 0 ? 1 : -1, big);
      move(next, `depth.${place}`);
    },
  });
  return {
    mark: kept === undefined || draft === undefined ? kept : { ...kept, zMm: draft },
    handlers: { tabIndex: 0, role: 'slider', ...handlers },
  };
};
