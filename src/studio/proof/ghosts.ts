/** Counts what the job's ghost trim clips, in the proof's pictures, whenever either has changed. */
import { trimOf } from '../../job/facts/ghost.ts';
import { documentStore } from '../../state/document.ts';
import { targetStore } from '../../state/targets.ts';
import { workStore } from '../../state/work.ts';
import { ghostClippedOf } from './proof-scene.ts';

/** Longer than a press of a key: counting takes the page some tens of milliseconds. */
const SETTLE_MS = 250;

const count = () => {
  const { prepared, preparing } = workStore.getState();
  if (preparing !== undefined) return;
  const { job } = documentStore.getState();
  targetStore.getState().set({ ghostClipped: ghostClippedOf(job, prepared) });
};

/** Begins to count; returns what ends it. */
export const startCountingGhosts = (): (() => void) => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const soon = () => {
    clearTimeout(timer);
    const counted = targetStore.getState().ghostClipped !== undefined;
    if (!counted && trimOf(documentStore.getState().job) === undefined) return;
    timer = setTimeout(count, SETTLE_MS);
  };
  const endings = [
    documentStore.subscribe((now, before) => {
      if (now.job !== before.job) soon();
    }),
    workStore.subscribe((now, before) => {
      if (now.prepared !== before.prepared || now.preparing !== before.preparing) soon();
    }),
  ];
  soon();
  return () => {
    clearTimeout(timer);
    for (const end of endings) end();
  };
};
