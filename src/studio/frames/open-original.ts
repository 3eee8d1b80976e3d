/** A frame's original in the form that workers take. */
import type { FileToRead } from '../../contract/frames.ts';
import type { Frame } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';

/** @throws StudioError `file-gone` if neither memory nor disk has it. */
export const openOriginal = async ({ disk }: Floor, { id, name }: Frame): Promise<FileToRead> => ({
  key: id,
  name,
  file: await disk.frames.open(id, name),
});
