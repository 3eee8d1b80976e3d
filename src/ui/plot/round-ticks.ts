import { scaleLog } from 'd3-scale';
import type { Axis } from './Plot.tsx';

/** 1, 2, 5, 10, 20 … from `least` to `most`, both above 0. */
export const roundSteps = (least: number, most: number): number[] => {
  const steps: number[] = [];
  for (let power = Math.floor(Math.log10(least)); power <= Math.ceil(Math.log10(most)); power += 1)
    for (const digit of [1, 2, 5]) {
      const step = Number(`${digit}e${power}`);
      if (step >= least * (1 - 1e-9) && step <= most * (1 + 1e-9)) steps.push(step);
    }
  return steps;
};

/** An axis on which equal lengths are equal ratios, with figures at 1, 2, 5. Both ends above 0. */
export const ratioAxis = (
  label: string,
  [least, most]: readonly [number, number],
  format: (value: number) => string,
): Axis => ({
  label,
  scale: (range) => scaleLog([least, most], range),
  ticks: () => roundSteps(least, most),
  format,
});
