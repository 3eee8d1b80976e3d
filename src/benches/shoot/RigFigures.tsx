/** What the rig comes to, each figure with the relation behind it. */
import { opticalGap } from '../../core/lens/lens.ts';
import { tracedGap } from '../../core/lens/traced.ts';
import { rigOf, rigRange, seenDepth, standMm } from '../../core/plan/rig.ts';
import { sayFine, sayLength, sayLengthTo, trimmed } from '../../core/units/format.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../../job/schema/job.ts';
import { setDepthGain } from '../../job/edits/consequences.ts';
import { depthGainOf } from '../../job/facts/plan.ts';
import {
  focalOf,
  keyDistanceOf,
  rigGainThatFits,
  rigSettingOf,
  sceneUnitOf,
  sensorOf,
} from '../../job/facts/rig.ts';
import { useChange, useUnits } from '../studio.ts';
import { Button, Figure, FiguresTable, Notice } from '../../ui/index.ts';
import { sceneLength } from '../../job/facts/scene-measure.ts';

export const TooDeep = ({ job }: { readonly job: Job }) => {
  const change = useChange();
  const { near = 0, far = 0 } = job.rig ?? {};
  const { front, behind } = rigRange(rigSettingOf(job), 1);
  const unit = sceneUnitOf(job);
  if (near >= keyDistanceOf(job))
    return (
      <Notice kind="problem" title="The nearest thing stands at the cameras or behind them">
        Make it nearer to the key plane, or let the cameras stand further away.
      </Notice>
    );
  if (near <= front * (1 + 1e-9) && far <= behind * (1 + 1e-9)) return null;
  const gain = rigGainThatFits(job);
  const what = near > front ? `the nearest thing, ${sceneLength(near, unit)} in front,` : '';
  const other = far > behind ? `the farthest thing, ${sceneLength(far, unit)} behind,` : '';
  return (
    <Notice kind="caution" title="The scene reaches beyond the sharp range">
      <p>
        {[what, other].filter((part) => part !== '').join(' and ')} moves more than one rib from
        view to view.
      </p>
      {gain !== undefined && (
        <Button
          onClick={() => void change('depth gain', (now) => setDepthGain(now, gain), 'rig.gain')}
        >
          Set depth gain to {gain}
        </Button>
      )}
    </Notice>
  );
};

const gapWords = (more: number): string =>
  Math.abs(more) < 0.0005
    ? 'This lens turns the picture as t / n says.'
    : `This lens turns the picture ${trimmed(100 * Math.abs(more), 1)} % ${more < 0 ? 'less' : 'more'} than t / n says, so the cameras stand that much ${more < 0 ? 'further apart' : 'closer together'}. The rib’s radius, where it is not known, is the one that is in focus.`;

/** Where the cameras stand: what the scene's numbers come to. */
export const RigAnswer = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  const setting = rigSettingOf(job);
  const rig = rigOf(setting);
  const unit = sceneUnitOf(job);
  const stand = standMm(setting);
  const last = rig.cameras.at(-1);
  const distance = job.print.viewingDistanceMm;
  const length = (value: number) => sceneLength(value, unit);
  return (
    <div>
      <Figure
        label="From camera to camera"
        value={length(rig.step)}
        relation={`Δ = γ D p / (N g′) = ${trimmed(rig.step / rig.scale, 4)} mm at print scale, times ${trimmed(rig.scale, 5)}`}
        relationNumber={5}
      >
        On a straight line, all looking straight ahead, with a gain of{' '}
        {trimmed(depthGainOf(job), 4)}.
      </Figure>
      <Figure
        label="Row of cameras"
        value={length(2 * (last?.x ?? 0))}
        relation={`(N − 1) Δ = ${rig.cameras.length - 1} × ${length(rig.step)}`}
        relationNumber={5}
      />
      <Figure
        label="Cameras to key plane"
        value={length(rig.keyDistance)}
        relation={`D × width at the key plane / print width = ${trimmed(stand, 1)} mm × ${trimmed(rig.scale, 5)}`}
        relationNumber={5}
      >
        {Math.abs(stand / distance - 1) < 1e-6
          ? 'The perspective of someone who looks at the print from its viewing distance.'
          : `The print is looked at from ${sayLengthTo(distance, units, 0)}, but these cameras stand as if at ${sayLengthTo(stand, units, 0)}: depth far from the key plane looks ${stand > distance ? 'stretched' : 'flattened'}.`}
      </Figure>
    </div>
  );
};

export const RigFigures = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  const setting = rigSettingOf(job);
  const rig = rigOf(setting);
  const unit = sceneUnitOf(job);
  const [sharp, soft] = [rigRange(setting, 1), rigRange(setting, 2)];
  const last = rig.cameras.at(-1);
  const distance = job.print.viewingDistanceMm;
  const length = (value: number) => sceneLength(value, unit);
  const away = (from: number) => (Number.isFinite(from) ? length(rig.keyDistance + from) : 'any');
  const seen = (z: number) => {
    const depth = seenDepth(setting, z, mm(distance));
    return Number.isFinite(depth) ? sayLength(Math.abs(depth), units) : 'any distance';
  };
  return (
    <div>
      <Figure
        label="Traced gap"
        value={sayFine(tracedGap(setting.lens), units)}
        relation={`g′ = slope of where light lands over tan θ, by the ray trace over the whole cone; g = t / n = ${trimmed(opticalGap(setting.lens), 4)} mm`}
        relationNumber={5}
      >
        {gapWords(tracedGap(setting.lens) / opticalGap(setting.lens) - 1)}
      </Figure>
      <Figure
        label="Focal length"
        value={`${trimmed(focalOf(job), 2)} mm on ${trimmed(sensorOf(job), 2)} mm`}
        relation={`f = s · distance / width = ${trimmed(sensorOf(job), 2)} × ${length(rig.keyDistance)} / ${length(rig.keyWidth)}`}
      >
        Only the ratio of the two counts for the picture; the sizes matter for blur.
      </Figure>
      <Figure
        label="Largest window shift"
        value={`${trimmed(100 * Math.abs(last?.windowShift ?? 0), 3)} % of the frame`}
        relation="−x_i / width at the key plane"
        relationNumber={5}
      >
        To the right for cameras at the left: the window stays on the key plane’s rectangle.
      </Figure>
      <Figure
        label="Sharp, from the cameras"
        value={`${away(-sharp.front)} to ${away(sharp.behind)}`}
        relation="|s(z)| = γ D p / (N g′) · |z| / (D + z) ≤ p"
        relationNumber={6}
      >
        {length(sharp.front)} in front of the key plane to {length(sharp.behind)} behind it. In the
        print that looks {seen(-sharp.front)} in front to {seen(sharp.behind)} behind.
      </Figure>
      <Figure
        label="Soft, from the cameras"
        value={`${away(-soft.front)} to ${away(soft.behind)}`}
        relation="|s(z)| ≤ 2 p"
        relationNumber={6}
      >
        Half the lens’s resolution is left at its ends; beyond it edges stand apart.
      </Figure>
      <FiguresTable
        caption="The limits in figures"
        head={['Limit', `From the key plane, ${unit.name}`, `From the cameras, ${unit.name}`]}
        rows={[
          ['Soft begins to break up, in front', length(soft.front), away(-soft.front)],
          ['Sharp ends, in front', length(sharp.front), away(-sharp.front)],
          ['Key plane', '0', length(rig.keyDistance)],
          ['Sharp ends, behind', length(sharp.behind), away(sharp.behind)],
          ['Soft begins to break up, behind', length(soft.behind), away(soft.behind)],
        ]}
      />
    </div>
  );
};
