/** The glasshouse of the demo scenes, as its generator wrote it: frames of 8 bits, depth maps of 16. */
import { readFileSync } from 'node:fs';

const folder = new URL('../../demo-scenes/glasshouse/', import.meta.url);
const two = (count: number) => String(count).padStart(2, '0');

export const frameName = (view: number) => `glasshouse_${two(view)}.png`;
export const framePath = (view: number) => new URL(frameName(view), folder).pathname;

const depthName = (view: number) => `glasshouse_depth_${two(view)}.png`;
export const depthBytes = (view: number) =>
  readFileSync(new URL(`depth/${depthName(view)}`, folder));
export const depthFile = (view: number) => ({
  key: `depth-${view}`,
  name: depthName(view),
  file: new Blob([Uint8Array.from(depthBytes(view))]),
});
