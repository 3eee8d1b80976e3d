/** Weaves the pitch strip that the fields describe. */
import { bandLabel } from '../../core/pitch/strip.ts';
import { stripSize } from '../../core/pitch/strip-rows.ts';
import { isoDay } from '../../core/units/day.ts';
import { keepWoven, stripFootOf, stripPlanOf, wovenOf } from '../../job/facts/pitch.ts';
import { gridOf } from '../../job/facts/printer.ts';
import { edgeWords } from '../../job/words/printer.ts';
import type { Studio } from '../studio.ts';
import type { Asked } from './go-on.ts';
import { weaveTarget } from './target.ts';

export const weaveStrip = (studio: Studio, asked?: Asked): Promise<void> =>
  weaveTarget(
    studio,
    'strip',
    (now, { at, units }) => {
      const plan = stripPlanOf(now, units);
      if (!plan.ok) throw new Error(plan.message);
      const today = isoDay(at);
      const spec = { ...plan.spec, foot: stripFootOf(now, today) };
      const middle = bandLabel(spec.bandsLpi[(spec.bandsLpi.length - 1) / 2] as number);
      return {
        spec,
        size: stripSize(spec),
        name: `pitch strip ${middle} lpi at ${Math.round(spec.readFromMm)} mm`,
        title: `Pitch strip round ${middle} LPI`,
        description:
          `Bands of ${spec.bandsLpi.map(bandLabel).join(', ')} LPI, ribs ${spec.ribs}, to be read from ` +
          `${spec.readFromMm} mm. Print at 100 %, no scaling, ${edgeWords[gridOf(now).fedFirst]} first, as the sheet.`,
        onWhole: ['strip woven', (job) => keepWoven(job, wovenOf(job, spec, today))],
      };
    },
    asked,
  );
