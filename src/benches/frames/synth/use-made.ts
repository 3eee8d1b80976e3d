/** What is kept of a made frame, brought from the disk while it is looked at. */
import { useCallback, useEffect, useState } from 'react';
import type { FilledPlaces } from '../../../core/frames/synth/filled-places.ts';
import type { Frame } from '../../../job/schema/job.ts';
import { readFilledPlaces } from '../../../studio/frames/made/read-filled.ts';
import { useAddress } from '../../desk/use-address.ts';
import { useStudio } from '../../studio.ts';

/** `here`: undefined where the browser does not hold them, or nothing that could be read. */
type Filled = 'coming' | { readonly here: FilledPlaces | undefined };

/** Where the frame was filled. */
export const useFilled = ({ name, made }: Frame): Filled => {
  const studio = useStudio();
  const holesId = made?.holesId;
  const [brought, setBrought] = useState<{ readonly id: string; readonly filled: Filled }>();
  useEffect(() => {
    if (holesId === undefined) return undefined;
    const halt = new AbortController();
    void readFilledPlaces(studio, holesId, name, halt.signal).then((here) => {
      if (!halt.signal.aborted) setBrought({ id: holesId, filled: { here } });
    });
    return () => halt.abort();
  }, [studio, holesId, name]);
  if (holesId === undefined) return { here: undefined };
  return brought?.id === holesId ? brought.filled : 'coming';
};

/** Address of the made picture itself: every browser shows what the studio has made. */
export const useMadePicture = ({ id, name }: Frame): string | undefined => {
  const { disk } = useStudio();
  return useAddress(useCallback(() => disk.frames.open(id, name), [disk, id, name]));
};
