/** Drawings in plain SVG. Apart from ui/index.ts, so that only benches that plot fetch the scales. */
export { line } from './line.ts';
export type { Axis } from './Plot.tsx';
export { Plot } from './Plot.tsx';
export { ratioAxis, roundSteps } from './round-ticks.ts';
export { useWidth } from './use-width.ts';
