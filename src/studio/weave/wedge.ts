import { trimmed } from '../../core/units/format.ts';
import { isoDay } from '../../core/units/day.ts';
import { PATCHES } from '../../core/weave/ghost-wedge.ts';
import { wedgeSize } from '../../core/weave/ghost-wedge-layout.ts';
import { keepWedge, wedgePlanOf } from '../../job/facts/ghost.ts';
import type { Studio } from '../studio.ts';
import type { Asked } from './go-on.ts';
import { weaveTarget } from './target.ts';

/** Weaves the ghost wedge. @param strongest ghost removal of its last patch, 0 … 1 */
export const weaveWedge = (studio: Studio, strongest: number, asked?: Asked): Promise<void> =>
  weaveTarget(
    studio,
    'wedge',
    (job, { at }) => {
      const plan = wedgePlanOf(job, strongest);
      if (!plan.ok) throw new Error(plan.message);
      const { spec } = plan;
      const percent = trimmed(100 * strongest, 1);
      return {
        spec,
        size: wedgeSize(spec),
        name: `ghost wedge ${percent} percent ${spec.viewSlots} slots`,
        title: `Ghost wedge to ${percent} %`,
        description:
          `${PATCHES} patches, ghost removal from 0 to ${percent} %, ${spec.viewSlots} view slots, ribs ` +
          `${spec.ribs}, to be read from ${spec.readFromMm} mm. Print at 100 %, no scaling, the same ` +
          'way round as the sheet.',
        onWhole: ['ghost wedge woven', (now) => keepWedge(now, strongest, isoDay(at))],
      };
    },
    asked,
  );
