/** Prints to hang before a lamp: a target, the patch that looks right, and the curves it stands for. */
import { LAMP_PATCHES, curveOfPatch } from '../../../core/colour/lamp-target.ts';
import type { LampCurve } from '../../../core/colour/lamp.ts';
import { MOST_DENSITY, MOST_WARMTH, whiteOf } from '../../../core/colour/lamp.ts';
import { trimmed } from '../../../core/units/format.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import { DEFAULT_LAMP, readLampPatch, setLamp } from '../../../job/edits/lamp.ts';
import { weaveLampTarget } from '../../../studio/weave/lamp-target.ts';
import { BlankMeasure, ChoiceField, Fields, Figure, Panel, Prose } from '../../../ui/index.ts';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { MakeFile } from '../../desk/MakeFile.tsx';
import { NumberFields } from '../../desk/NumberFields.tsx';
import { useChange, useJob, useStudio } from '../../studio.ts';
import { useEditOrRefusal } from '../use-edit-or-refusal.ts';
import { CurvePlot } from './CurvePlot.tsx';

const densityMeasure = plainMeasure(0.1, 2, '×');
const warmthMeasure = plainMeasure(0.5, 2);
const densityHint = `1 as by daylight, up to ${MOST_DENSITY}.`;
const warmthHint = `−${MOST_WARMTH} cooler to ${MOST_WARMTH} warmer.`;
const patchMeasure = plainMeasure(1, 0);

const patches = Array.from({ length: LAMP_PATCHES }, (_, i) => i + 1);

const patchOf = ({ density, warmth }: LampCurve): number | undefined =>
  patches.find((patch) => {
    const curve = curveOfPatch(patch);
    return curve?.density === density && curve.warmth === warmth;
  });

const CurveFields = ({ lamp }: { readonly lamp: LampCurve }) => {
  const make = useEditOrRefusal();
  return (
    <Fields least={11}>
      <BlankMeasure
        label="Patch that looks right"
        value={patchOf(lamp)}
        measure={patchMeasure}
        hint={`Of the target, 1 to ${LAMP_PATCHES}.`}
        onCommit={(patch) => (patch === undefined ? undefined : make(readLampPatch(patch)))}
      />
      <NumberFields
        of={lamp}
        rows={[
          ['density', 'Density over the lamp', densityMeasure, densityHint],
          ['warmth', 'Warmth over the lamp', warmthMeasure, warmthHint],
        ]}
        edit={(label, to) => make(setLamp(label, { ...lamp, ...to }))}
      />
    </Fields>
  );
};

const Figures = ({ lamp }: { readonly lamp: LampCurve }) => (
  <div>
    <Figure
      label="Mid grey is printed as"
      value={`${trimmed(100 * 0.18 ** lamp.density, 1)} % light`}
      relation={`light^k = 0.18^${trimmed(lamp.density, 2)} = ${trimmed(0.18 ** lamp.density, 3)}`}
    >
      By daylight light goes through the ink twice, to the paper and back; from a lamp behind it
      goes through once. Clear film would take k = 2; paper holds light back itself and takes less.
    </Figure>
    <Figure
      label="White of the balance"
      value={`${trimmed(whiteOf(lamp.warmth), 0)} K`}
      relation={`10⁶ / (10⁶ / 6504 + 40 × ${trimmed(lamp.warmth, 2)}) = ${trimmed(whiteOf(lamp.warmth), 0)} K`}
    >
      Each step is 40 mired along the black body (Kim and others, 2002): above 0 the print is
      warmer, for a lamp that is too cool; below 0 cooler. Paper white takes a little ink then.
    </Figure>
  </div>
);

export const LampPanel = () => {
  const { lamp } = useJob();
  const studio = useStudio();
  const change = useChange();
  return (
    <Panel title="Over a lamp">
      <ChoiceField
        label="The print is lit"
        choices={[
          { value: 'front', label: 'From the front' },
          { value: 'lamp', label: 'By a lamp behind it' },
        ]}
        value={lamp === undefined ? 'front' : 'lamp'}
        onChange={(value) =>
          void change(
            ...setLamp('lamp behind the print', value === 'lamp' ? DEFAULT_LAMP : undefined),
          )
        }
      />
      <Prose>
        Print the target on the paper of the sheet, hang it before the lamp with the lens over it,
        and type the number of the patch that looks right. It shows a grey ramp, well-known colours
        and, once frames are prepared, a piece of your own picture.
      </Prose>
      <CautionNotes kinds={['lamps', 'edges']} />
      <MakeFile
        kind="lampTarget"
        name="lamp target"
        onWeave={(asked) => void weaveLampTarget(studio, asked)}
      />
      {lamp !== undefined && (
        <>
          <CurveFields lamp={lamp} />
          <Figures lamp={lamp} />
          <CurvePlot curve={lamp} />
          <Prose>
            The sheet and the loupe have these curves. The tilt proof shows the picture as it is to
            look, with the lamp lit.
          </Prose>
        </>
      )}
    </Panel>
  );
};
