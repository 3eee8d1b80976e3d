/** Whether the bytes of a profile lie on this computer. */
import { useEffect, useState } from 'react';
import { useShelves, useStudio } from '../studio.ts';

/** Undefined until it is known. Looked for again when the shelves change. */
export const useProfileHere = (profileId: string | undefined): boolean | undefined => {
  const { disk } = useStudio();
  const shelves = useShelves((state) => state.shelves);
  const [found, setFound] = useState<{ readonly id: string; readonly isHere: boolean }>();
  useEffect(() => {
    if (profileId === undefined) return undefined;
    let isOver = false;
    const look = async () => {
      const stored = await (await disk.profiles()).get(profileId).catch(() => undefined);
      if (!isOver) setFound({ id: profileId, isHere: stored !== undefined });
    };
    void look();
    return () => {
      isOver = true;
    };
  }, [disk, profileId, shelves]);
  return found?.id === profileId ? found?.isHere : undefined;
};
