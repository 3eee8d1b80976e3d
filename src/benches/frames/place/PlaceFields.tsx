/** The numbers of where a picture lies, and of its brightness and white. */
import { trimmed } from '../../../core/units/format.ts';
import { lengthMeasure, percentMeasure, unitMeasure } from '../../../core/units/measure.ts';
import type { PictureLight } from '../../../core/colour/picture-light.ts';
import { lightPicture, placePicture } from '../../../job/edits/place.ts';
import type { PlaceChange } from '../../../job/facts/place.ts';
import { shiftMm, unplaced } from '../../../job/facts/laid.ts';
import { changedPlace } from '../../../job/facts/place.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { sayStops } from '../../../job/words/place.ts';
import { Fields, MeasureField, Slider } from '../../../ui/index.ts';
import { useChange, useUnits } from '../../studio.ts';

interface Props {
  readonly job: Job;
  readonly frame: Frame;
}

const zoomMeasure = { ...percentMeasure(1), format: (zoom: number) => trimmed(100 * zoom, 2) };
const turnMeasure = unitMeasure(0.1, 3, '°', /\s*(°|deg|degrees?)$/i);

export const PlaceFields = ({ job, frame }: Props) => {
  const change = useChange();
  const units = useUnits();
  const { zoom, turnDeg } = frame.place ?? unplaced;
  const { rightMm, downMm } = shiftMm(job, frame);
  const length = lengthMeasure(units, 0.5, 0.03125);
  const by = (how: string, changeBy: PlaceChange) =>
    change(...placePicture(frame, changedPlace(job, frame, changeBy), how));
  return (
    <Fields least={8}>
      <MeasureField
        label="Zoom"
        value={zoom}
        measure={zoomMeasure}
        onCommit={(to) =>
          to >= 0.05 && to <= 20
            ? by('zoom', { zoomBy: to / zoom })
            : 'Zoom must be within 5 and 2000 %.'
        }
      />
      <MeasureField
        label="To the right"
        value={rightMm}
        measure={length}
        onCommit={(to) => by('right', { rightMm: to - rightMm, downMm: 0 })}
      />
      <MeasureField
        label="Down"
        value={downMm}
        measure={length}
        onCommit={(to) => by('down', { rightMm: 0, downMm: to - downMm })}
      />
      <MeasureField
        label="Turn clockwise"
        value={turnDeg}
        measure={turnMeasure}
        onCommit={(to) =>
          Math.abs(to) > 180
            ? 'Turn must be within 180° either way.'
            : by('turn', { turnByDeg: to - turnDeg })
        }
      />
    </Fields>
  );
};

const neutral: PictureLight = { stops: 0, warmth: 0, tint: 0 };

const sliders: readonly (readonly [name: keyof PictureLight, label: string, most: number])[] = [
  ['stops', 'Brightness', 3],
  ['warmth', 'Warmth', 2],
  ['tint', 'Tint', 2],
];

export const LightFields = ({ frame }: Pick<Props, 'frame'>) => {
  const change = useChange();
  const light = frame.light ?? neutral;
  return sliders.map(([name, label, most]) => (
    <Slider
      key={name}
      label={label}
      min={-most}
      max={most}
      step={0.05}
      value={light[name]}
      valueText={sayStops(light[name])}
      ticks={[0]}
      onChange={(to) => void change(...lightPicture(frame, { ...light, [name]: to }))}
    />
  ));
};
