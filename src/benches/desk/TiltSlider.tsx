/** Where the eye stands, for every picture of the print that turns. */
import { sayLength } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { useJob, useView } from '../../state/hooks.ts';
import { viewStore } from '../../state/view.ts';
import { Slider } from '../../ui/index.ts';
import { eyeOf, viewSeenAt } from '../../studio/proof/proof-scene.ts';

/** The person takes over: whatever moved the proof by itself stops. */
export const turnTo = (tilt: number) => {
  viewStore.getState().set({ tilt, swaying: false });
};

const tiltText = (job: ReturnType<typeof useJob>, tilt: number, units: LengthUnit): string => {
  const eye = Math.round(Math.abs(eyeOf(job, tilt)));
  const [ahead, behind] = job.ribs === 'upright' ? ['right', 'left'] : ['low', 'high'];
  const where =
    eye === 0
      ? 'straight ahead'
      : `${units === 'mm' ? `${eye} mm` : sayLength(eye, units)} ${tilt > 0 ? ahead : behind}`;
  return `${where}, view ${viewSeenAt(job, tilt)} of ${job.viewSlots}`;
};

export const TiltSlider = () => {
  const job = useJob();
  const tilt = useView((view) => view.tilt);
  const units = useView((view) => view.units);
  return (
    <Slider
      label="Tilt"
      value={tilt}
      min={-1}
      max={1}
      step={0.005}
      valueText={tiltText(job, tilt, units)}
      onChange={turnTo}
    />
  );
};
