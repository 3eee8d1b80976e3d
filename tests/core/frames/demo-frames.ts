/** The demo scenes: their frames as planes of light, and what their depth maps say of each place. */
import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { linearOfCode8 } from '../../../src/core/colour/srgb.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { planeOfLight } from '../../../src/core/frames/parallax/plane.ts';

interface DemoScene {
  readonly frames: readonly string[];
  readonly frameWidthPx: number;
  readonly printWidthMm: number;
  readonly pitchLpi: number;
  readonly viewingDistanceMm: number;
  readonly cameras: { readonly stepMm: number };
  readonly depth: { readonly files: readonly string[]; zNearMm: number; zFarMm: number };
}

const folder = (name: string) => `demo-scenes/${name}/`;
export const demo = (name: string): DemoScene =>
  JSON.parse(readFileSync(`${folder(name)}scene.json`, 'utf8')) as DemoScene;

export const frameOf = async (name: string, index: number): Promise<Plane> => {
  const { data, info } = await sharp(folder(name) + (demo(name).frames[index] as string))
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const light = linearOfCode8();
  return planeOfLight(
    info.width,
    info.height,
    Uint16Array.from(data, (code) => light[code] as number),
  );
};

/** Exact ribs per view at a pixel of the frame, from the depth map and relation 6. */
export const truthOf = async (name: string, index: number) => {
  const scene = demo(name);
  const { data, info } = await sharp(`${folder(name)}depth/${scene.depth.files[index]}`)
    .toColourspace('grey16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.byteLength / 2);
  const { zNearMm, zFarMm } = scene.depth;
  return (x: number, y: number): number => {
    const column = Math.min(info.width - 1, Math.max(0, x >> 1));
    const row = Math.min(info.height - 1, Math.max(0, y >> 1));
    const code = codes[(row * info.width + column) * info.channels] as number;
    const z = zNearMm + (code / 65535) * (zFarMm - zNearMm);
    const stepMm = (scene.cameras.stepMm * z) / (scene.viewingDistanceMm + z);
    return (stepMm * scene.pitchLpi) / 25.4;
  };
};

export const ribsOf = ({ printWidthMm, pitchLpi }: DemoScene) => (printWidthMm / 25.4) * pitchLpi;
