/** Keeps a tilt proof in a box of the page in step with the job, the prepared frames and the view. */
import { useEffect, useRef } from 'react';
import type { TiltProof } from '../../preview/tilt-proof.ts';
import { createTiltProof } from '../../preview/tilt-proof.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import { workStore } from '../../state/work.ts';
import { sceneAsShown, viewAsShown } from '../../studio/proof/as-printed.ts';
import { proofSceneOf, proofViewOf } from '../../studio/proof/proof-scene.ts';

/** `?proof=2d` in the address does without WebGL2: for machines whose driver draws it wrong. */
const painterWanted = (): 'webgl' | 'canvas' =>
  new URLSearchParams(location.search).get('proof') === '2d' ? 'canvas' : 'webgl';

/** A picture larger than this shows no more: the proof has at most 1024 samples a side. */
const MOST_PIXELS_A_SIDE = 1600;

const follow = (proof: TiltProof): (() => void) => {
  let shown = false;
  let missed = false;
  const showScene = () => {
    const { prepared, preparing, weave } = workStore.getState();
    // New pictures cost the page and the graphics far more than a turn does. So the first frame is
    // shown as soon as it is there and the rest together, and a weave goes before either.
    missed = weave.stage === 'weaving' || (shown && preparing !== undefined);
    if (missed) return;
    const { job } = documentStore.getState();
    const scene = proofSceneOf(job, prepared);
    shown = scene.frames.some((frame) => frame !== undefined);
    proof.setScene(sceneAsShown(job, scene));
  };
  const showView = () => {
    const { tilt, bothEyes } = viewStore.getState();
    const { job } = documentStore.getState();
    proof.setView(viewAsShown(job, proofViewOf(job, tilt, bothEyes)));
  };
  showScene();
  showView();
  const endings = [
    documentStore.subscribe(({ job }, before) => {
      if (job === before.job) return;
      // While frames are prepared anew the pictures still fit the old sheet; they are shown with the
      // new one's ribs, which differ by little, until theirs are there.
      showScene();
      showView();
    }),
    workStore.subscribe((now, before) => {
      const wasBusy = before.preparing !== undefined || before.weave.stage === 'weaving';
      const isBusy = now.preparing !== undefined || now.weave.stage === 'weaving';
      if (now.prepared !== before.prepared || (missed && wasBusy && !isBusy)) showScene();
    }),
    viewStore.subscribe((now, before) => {
      if (now.proofShows !== before.proofShows) showScene();
      if (
        now.tilt !== before.tilt ||
        now.bothEyes !== before.bothEyes ||
        now.proofShows !== before.proofShows
      )
        showView();
    }),
  ];
  return () => {
    for (const end of endings) end();
  };
};

/** @returns the ref of the box that the proof fills. */
export const useProof = () => {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const host = box.current;
    if (host === null) return undefined;
    const proof = createTiltProof(host, painterWanted());
    const fitSize = () => {
      const scale = Math.min(
        devicePixelRatio,
        MOST_PIXELS_A_SIDE / Math.max(1, host.clientWidth, host.clientHeight),
      );
      proof.setSize(Math.round(host.clientWidth * scale), Math.round(host.clientHeight * scale));
    };
    const watch = new ResizeObserver(fitSize);
    watch.observe(host);
    fitSize();
    const end = follow(proof);
    return () => {
      end();
      watch.disconnect();
      proof.dispose();
    };
  }, []);
  return box;
};
