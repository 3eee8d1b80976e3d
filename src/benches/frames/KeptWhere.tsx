/** Where the frames' originals are kept, in a browser that has no private disk for them. */
import { useEffect, useState } from 'react';
import type { FramePlace } from '../../studio/keep/browser.ts';
import { Notice, Prose } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';

export const KeptWhere = () => {
  const { disk } = useStudio();
  const [place, setPlace] = useState<FramePlace>('private-disk');
  useEffect(() => {
    let gone = false;
    disk.frames.place().then(
      (found) => {
        if (!gone) setPlace(found);
      },
      () => undefined, // The desk says that the disk does not answer.
    );
    return () => {
      gone = true;
    };
  }, [disk]);
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
