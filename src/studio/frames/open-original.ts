/** A frame's original, as workers are given it. */
import type { FileToRead } from '../../contract/synth.ts';
import type { Frame } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';

/** @throws StudioError `file-gone` when neither memory nor disk has it. */
export const openOriginal = async ({ disk }: Floor, { id, name }: Frame): Promise<FileToRead> => ({
  key: id,
  name,
  file: await disk.frames.open(id, name),
});
