/** The tilt proof in a box of the page, as large as the box. */
import { useEffect, useRef, useState } from 'react';
import { createTiltProof } from '../../preview/tilt-proof.ts';
import { followProof } from '../../studio/proof/follow-proof.ts';
import { useStudio } from '../studio.ts';

/** `?proof=2d` in the address does without WebGL2: for machines whose driver draws it wrong. */
const painterWanted = (): 'webgl' | 'canvas' =>
  new URLSearchParams(location.search).get('proof') === '2d' ? 'canvas' : 'webgl';

/** A picture larger than this shows no more: the proof has at most 1024 samples a side. */
const MOST_PIXELS_A_SIDE = 1600;

/** @returns the ref of the box that the proof fills, and whether the graphics card has gone from under it. */
export const useProof = () => {
  const studio = useStudio();
  const box = useRef<HTMLDivElement>(null);
  const [cardLost, setCardLost] = useState(false);
  useEffect(() => {
    const host = box.current;
    if (host === null) return undefined;
    const proof = createTiltProof(host, painterWanted(), () => setCardLost(true));
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
    const end = followProof(studio, proof);
    return () => {
      end();
      watch.disconnect();
      proof.dispose();
    };
  }, [studio]);
  return { box, cardLost };
};
