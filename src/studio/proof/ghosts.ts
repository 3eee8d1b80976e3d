/** Counts what the job's ghost removal clips in the proof's pictures, whenever either changes. */
import { ghostClippedOf } from '../../core/proof/sources.ts';
import { trimOf } from '../../job/facts/ghost.ts';
import type { Floor } from '../floor.ts';
import { proofSourcesOf } from './proof-scene.ts';

/** Longer than the pause between two letters: counting takes some tens of milliseconds. */
const SETTLE_MS = 250;

/** @returns what ends the counting */
export const startCountingGhosts = ({ document, work }: Floor): (() => void) => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const count = () => {
    const { prepared, preparing } = work.getState();
    if (preparing !== undefined) return;
    const sources = proofSourcesOf(document.getState().job, prepared);
    work.setState({ ghostClipped: ghostClippedOf(sources) });
  };
  const soon = () => {
    clearTimeout(timer);
    const counted = work.getState().ghostClipped !== undefined;
    if (!counted && trimOf(document.getState().job) === undefined) return;
    timer = setTimeout(count, SETTLE_MS);
  };
  const endings = [
    document.subscribe((now, before) => {
      if (now.job !== before.job) soon();
    }),
    work.subscribe((now, before) => {
      if (now.prepared !== before.prepared || now.preparing !== before.preparing) soon();
    }),
  ];
  soon();
  return () => {
    clearTimeout(timer);
    for (const end of endings) end();
  };
};
