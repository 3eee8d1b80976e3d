/** Where the eye stands, for every picture of the print that turns. */
import { useJob, useView } from '../../state/hooks.ts';
import { viewStore } from '../../state/view.ts';
import { Slider } from '../../ui/index.ts';
import { eyeOf, viewSeenAt } from './proof-scene.ts';

/** The person takes over: whatever moved the proof by itself stops. */
export const turnTo = (tilt: number) => {
  viewStore.getState().set({ tilt, swaying: false });
};

const tiltText = (job: ReturnType<typeof useJob>, tilt: number): string => {
  const eye = Math.round(Math.abs(eyeOf(job, tilt)));
  const [ahead, behind] = job.ribs === 'upright' ? ['right', 'left'] : ['low', 'high'];
  const where = eye === 0 ? 'straight ahead' : `${eye} mm ${tilt > 0 ? ahead : behind}`;
  return `${where}, view ${viewSeenAt(job, tilt)} of ${job.viewSlots}`;
};

export const TiltSlider = () => {
  const job = useJob();
  const tilt = useView((view) => view.tilt);
  return (
    <Slider
      label="Tilt"
      value={tilt}
      min={-1}
      max={1}
      step={0.005}
      valueText={tiltText(job, tilt)}
      onChange={turnTo}
    />
  );
};
