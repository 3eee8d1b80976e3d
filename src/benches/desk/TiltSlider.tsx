/** Where the eye stands, for every picture of the print that turns. */
import { sayLength } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { eyeOf, sayViewAt } from '../../job/facts/eye.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../../studio/studio.ts';
import { Slider } from '../../ui/index.ts';
import { useJob, useStudio, useUnits, useView } from '../studio.ts';

/** The person takes over: whatever moved the proof by itself stops. */
export const turnTo = ({ view }: Studio, tilt: number): void =>
  view.getState().set({ tilt, swaying: false });

const tiltText = (job: Job, tilt: number, units: LengthUnit): string => {
  const eye = Math.round(Math.abs(eyeOf(job, tilt)));
  const [ahead, behind] = job.ribs === 'upright' ? ['right', 'left'] : ['low', 'high'];
  const where =
    eye === 0
      ? 'straight ahead'
      : `${units === 'mm' ? `${eye} mm` : sayLength(eye, units)} ${tilt > 0 ? ahead : behind}`;
  return `${where}, ${sayViewAt(job, tilt)}`;
};

export const TiltSlider = () => {
  const studio = useStudio();
  const job = useJob();
  const tilt = useView((view) => view.tilt);
  const units = useUnits();
  return (
    <Slider
      label="Tilt"
      value={tilt}
      min={-1}
      max={1}
      step={0.005}
      valueText={tiltText(job, tilt, units)}
      onChange={(value) => turnTo(studio, value)}
    />
  );
};
