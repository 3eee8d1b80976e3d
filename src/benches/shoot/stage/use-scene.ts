/** The job’s scene, opened in its worker. */
import { useEffect, useState } from 'react';
import { messageOf } from '../../../contract/errors.ts';
import type { StageChoices } from '../../../job/schema/stage.ts';
import type { OpenScene } from '../../../studio/stage/open.ts';
import { openStage } from '../../../studio/stage/open.ts';
import { useStudio } from '../../studio.ts';

type Opened =
  | { readonly of: string; readonly open: OpenScene }
  | { readonly of: string; readonly fault: string };

/** Undefined while it is being opened. */
export const useScene = (stage: StageChoices): Opened | undefined => {
  const studio = useStudio();
  const [opened, setOpened] = useState<Opened>();
  const { sceneId, sceneName } = stage;
  useEffect(() => {
    const halt = new AbortController();
    const scene = { sceneId, sceneName, fingerprint: '', pose: [] };
    openStage(studio, scene, halt.signal).then(
      (open) => {
        if (open !== undefined && !halt.signal.aborted) setOpened({ of: sceneId, open });
      },
      (error: unknown) => {
        if (!halt.signal.aborted) setOpened({ of: sceneId, fault: messageOf(error) });
      },
    );
    return () => halt.abort();
  }, [studio, sceneId, sceneName]);
  return opened?.of === sceneId ? opened : undefined;
};
