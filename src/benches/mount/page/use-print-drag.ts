/** Moves the print on the drawing of its page: by hand, shown as it goes, or by the arrow keys. */
import type { PagePlan } from '../../../core/sheet/page-layout.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import { MM_PER_INCH } from '../../../core/units/units.ts';
import { movePrint } from '../../../job/edits/page.ts';
import { useGrip } from '../../../ui/index.ts';
import { useChange } from '../../studio.ts';

/** What a key moves the print by: a round length in either unit. Ten times that with Shift. */
export const KEY_STEP_MM = { mm: 1, in: 0.05 * MM_PER_INCH } as const;

/** `moved` by the drag under way, in millimetres of the paper. */
export const usePrintDrag = ({ paperWidthMm, paperHeightMm }: PagePlan, units: LengthUnit) => {
  const change = useChange();
  const { draft, handlers } = useGrip({
    take: () => undefined,
    pull: (_, { dx, dy, width, height }) => {
      // The paper keeps its shape within the drawing, whichever side is the tighter one.
      const perMm = Math.min(width / paperWidthMm, height / paperHeightMm);
      return [dx / perMm, dy / perMm] as const;
    },
    drop: ([right, down]) => change(...movePrint(right, down, 'drag')),
    step: (right, down, big) => {
      const size = KEY_STEP_MM[units] * (big ? 10 : 1);
      change(...movePrint(right * size, down * size, 'key'));
    },
  });
  return { moved: draft ?? ([0, 0] as const), handlers };
};
