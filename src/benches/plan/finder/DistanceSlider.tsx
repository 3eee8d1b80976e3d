/** The distance as a slider, so that one sees what it does to every lens. Equal lengths of the track are equal ratios. */
import { exploreFrom } from '../../../job/edits/nearest-change.ts';
import { lensWishOf } from '../../../job/facts/lens-wish.ts';
import { Slider } from '../../../ui/index.ts';
import { useChange, useJob } from '../../studio.ts';
import { useSay } from './use-say.ts';

/** From a hand’s breadth to the end of a hall. */
const [LEAST, MOST] = [150, 15000];
const STEPS = 120;

/** To the half of its second digit: 455 mm, 1.35 m. */
const round = (distanceMm: number): number => {
  const step = 10 ** (Math.floor(Math.log10(distanceMm)) - 1) / 2;
  return Math.round(distanceMm / step) * step;
};

export const DistanceSlider = () => {
  const { nearMm, farMm } = lensWishOf(useJob());
  const change = useChange();
  const { say } = useSay();
  const [least, most] = [Math.min(LEAST, nearMm), Math.max(MOST, nearMm)];
  const ratio = Math.log(most / least) / STEPS;
  return (
    <Slider
      label="Explore the distance"
      value={Math.log(nearMm / least) / ratio}
      min={0}
      max={STEPS}
      step={1}
      valueText={farMm > nearMm ? `from ${say(nearMm)} to ${say(farMm)}` : `from ${say(nearMm)}`}
      onChange={(at) => void change(...exploreFrom(round(least * Math.exp(at * ratio))))}
    />
  );
};
