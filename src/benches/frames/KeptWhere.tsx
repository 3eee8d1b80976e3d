/** Where the frames' originals are kept, in a browser that has no private disk for them. */
import { useCallback } from 'react';
import { Notice, Prose } from '../../ui/index.ts';
import { useComing } from '../desk/use-coming.ts';
import { useStudio } from '../studio.ts';

export const KeptWhere = () => {
  const { disk } = useStudio();
  const place = useComing(useCallback(() => disk.frames.place(), [disk]));
  if (place === 'memory')
    return (
      <Notice kind="caution" title="Frames are held in memory alone">
        This browser keeps nothing for this page, as in some private windows. The frames can be
        woven, but they go when the page is closed: hold on to your own files, or save a job file.
      </Notice>
    );
  if (place === 'database')
    return (
      <Prose>
        This browser has no private disk, so the frames’ originals are kept in its database. They
        come back after a reload.
      </Prose>
    );
  return null;
};
