/** How the frames lie on the print: cut or whole, where, how bright, how fine. */
import { shapesDiffer } from '../../core/frames/shapes.ts';
import { shiftPicture } from '../../job/edits/shift.ts';
import { areaOf } from '../../job/facts/sheet.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import { Button, ChoiceField, Panel, Prose, Row, Slider, Stack } from '../../ui/index.ts';
import { useChange, useJob } from '../studio.ts';
import { FinenessLine } from './FinenessLine.tsx';
import { Outline } from './Outline.tsx';
import styles from './PicturePanel.module.css';
import { MadeFrames } from './synth/MadeFrames.tsx';

const signed = (value: number): string =>
  `${value > 0 ? '+' : value < 0 ? '−' : ''}${Math.abs(value).toFixed(1)}`;

const ExposureField = ({ stops }: { readonly stops: number }) => {
  const change = useChange();
  const setExposure = (exposureStops: number): void =>
    void change('exposure', (job) => ({ ...job, exposureStops }), 'exposure');
  return (
    <div className={styles['exposure']}>
      <Slider
        label="Exposure"
        min={-10}
        max={10}
        step={0.1}
        value={stops}
        valueText={`${signed(stops)} stops`}
        ticks={[0]}
        onChange={setExposure}
      />
      <Button off={stops === 0} onClick={() => setExposure(0)}>
        As rendered
      </Button>
    </div>
  );
};

/** The axes along which the print and a frame differ, so that there is room to shift. */
const roomsOf = (job: Job): { x: boolean; y: boolean } => {
  const areas = job.frames.map((frame) => ({ frame, area: areaOf(job, frame) }));
  return {
    x: areas.some(({ frame, area }) => Math.abs(frame.widthPx - area.width) >= 1),
    y: areas.some(({ frame, area }) => Math.abs(frame.heightPx - area.height) >= 1),
  };
};

const sayShift = (value: number, [low, high]: readonly [string, string]): string =>
  value === 0
    ? 'in the middle'
    : `${Math.round(Math.abs(value) * 100)} % to the ${value < 0 ? low : high}`;

interface ShiftProps {
  readonly label: 'Shift across' | 'Shift down';
  readonly value: number;
  readonly ends: readonly [low: string, high: string];
}

const Shift = ({ label, value, ends }: ShiftProps) => {
  const change = useChange();
  const isAcross = label === 'Shift across';
  return (
    <Slider
      label={label}
      min={-1}
      max={1}
      step={0.01}
      value={value}
      valueText={sayShift(value, ends)}
      ticks={[0]}
      onChange={(to) =>
        void change(...(isAcross ? shiftPicture(to, undefined) : shiftPicture(undefined, to)))
      }
    />
  );
};

const Placing = ({ job, first }: { readonly job: Job; readonly first: Frame }) => {
  const { mode, shiftX, shiftY } = job.placement;
  const rooms = roomsOf(job);
  const change = useChange();
  return (
    <Row gap={5} align="start">
      <Outline job={job} frame={first} />
      <Stack className={styles['controls']}>
        <ChoiceField
          label="Picture shape"
          value={mode}
          choices={[
            { value: 'fill', label: 'Fill, crop' },
            { value: 'fit', label: 'Fit whole' },
          ]}
          onChange={(next) =>
            void change('picture shape', (now) => ({
              ...now,
              placement: { ...now.placement, mode: next },
            }))
          }
        />
        <Prose>
          {mode === 'fill'
            ? 'The line is the edge of the print; what lies outside is cut away. Drag it, or use the slider.'
            : 'The line is the edge of the print; paper shows beside the picture. Drag it, or use the slider.'}
        </Prose>
        {rooms.x && <Shift label="Shift across" value={shiftX} ends={['left', 'right']} />}
        {rooms.y && <Shift label="Shift down" value={shiftY} ends={['top', 'bottom']} />}
      </Stack>
    </Row>
  );
};

export const PicturePanel = () => {
  const job = useJob();
  // One that is placed by itself does not follow what is set here.
  const first = job.frames.find(({ place }) => place === undefined) ?? job.frames[0];
  if (first === undefined) return null;
  const printShape = job.print.widthMm / job.print.heightMm;
  const differs = job.frames.some(({ widthPx, heightPx }) =>
    shapesDiffer(widthPx / heightPx, printShape),
  );
  return (
    <Panel title="On the print">
      {differs ? (
        <Placing job={job} first={first} />
      ) : (
        <p>The frames have the shape of the print: they fit exactly.</p>
      )}
      {job.frames.some(({ sceneLinear }) => sceneLinear) && (
        <ExposureField stops={job.exposureStops} />
      )}
      <FinenessLine job={job} />
      <MadeFrames job={job} />
    </Panel>
  );
};
