import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { newJob } from '../../../src/job/schema/job.ts';
import type { Frame } from '../../../src/job/schema/job.ts';
import { makeStudio } from '../support.ts';

const frameOf = (id: string): Frame => ({
  id,
  name: `${id}.png`,
  byteLength: 1,
  widthPx: 80,
  heightPx: 100,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
});
const picture = new Blob(['picture']);

let addresses = 0;
beforeEach(() => {
  addresses = 0;
  vi.stubGlobal('URL', {
    createObjectURL: () => `address ${(addresses += 1)}`,
    revokeObjectURL: vi.fn(),
  });
});
afterEach(() => vi.unstubAllGlobals());

const laidIn = async (...ids: string[]) => {
  const studio = makeStudio();
  const frames = ids.map(frameOf);
  studio.document.getState().open({ ...newJob(), frames });
  for (const { id, name } of frames) await studio.disk.frames.keep(id, name, picture, picture);
  const told = vi.fn();
  studio.work.subscribe(({ thumbnails }, before) => {
    if (thumbnails !== before.thumbnails) told([...thumbnails.keys()]);
  });
  return { ...studio, frames, told };
};

test('only the pictures that are asked for are brought, and told of together', async () => {
  const { thumbnails, frames, told, work } = await laidIn('a', 'b', 'c');
  thumbnails.start();
  for (const frame of [...frames.slice(0, 2), ...frames.slice(0, 2)]) thumbnails.want(frame);
  await vi.waitFor(() => expect(work.getState().thumbnails.size).toBe(2));
  expect(told.mock.calls).toEqual([[['a', 'b']]]);
  expect(addresses).toBe(2);
});

test('a newer picture takes the place of the one shown, whose address is given back', async () => {
  const { thumbnails, frames, work } = await laidIn('a');
  const [frame] = frames as [Frame];
  thumbnails.show(frame.id, picture);
  expect(addresses).toBe(0);
  thumbnails.want(frame);
  await vi.waitFor(() => expect(work.getState().thumbnails.get('a')).toBe('address 1'));
  thumbnails.show(frame.id, picture);
  await vi.waitFor(() => expect(work.getState().thumbnails.get('a')).toBe('address 2'));
  expect(URL.revokeObjectURL).toHaveBeenCalledExactlyOnceWith('address 1');
});
