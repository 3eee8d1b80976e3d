/** What is handed over is told apart: frames, clips, printer profiles. */
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { gatherFiles } from '../../src/files/arrivals.ts';

const SIDE = 16;

/** By libvips: a picture, or an animation of several. */
const webp = async (count: number): Promise<Uint8Array<ArrayBuffer>> => {
  const data = Buffer.alloc(SIDE * SIDE * count * 3);
  for (let at = 0; at < data.length; at += 1) data[at] = at % 251;
  const height = SIDE * count;
  const frames = sharp(data, { raw: { width: SIDE, height, channels: 3, pageHeight: SIDE } });
  return Uint8Array.from(await frames.webp().toBuffer());
};

const file = (name: string, bytes: Uint8Array<ArrayBuffer> = new Uint8Array(4)) =>
  new File([bytes], name);

it('an animation is a clip, whatever its ending says, and a still picture a frame', async () => {
  const gathered = await gatherFiles([
    file('still.webp', await webp(1)),
    file('wings.webp', await webp(3)),
    file('pier.MOV'),
  ]);
  expect(gathered.arrivals.map(({ name }) => name)).toEqual(['still.webp']);
  expect(gathered.clips.map(({ name }) => name)).toEqual(['wings.webp', 'pier.MOV']);
  expect(gathered.leftOut).toEqual([]);
});

it('a printer profile is none of the frames, and none of what is left out', async () => {
  const gathered = await gatherFiles([file('matte.icc'), file('a.png'), file('gloss.ICM')]);
  expect(gathered.profiles.map(({ name }) => name)).toEqual(['matte.icc', 'gloss.ICM']);
  expect(gathered.arrivals.map(({ name }) => name)).toEqual(['a.png']);
  expect(gathered.leftOut).toEqual([]);
});
