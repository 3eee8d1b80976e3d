/** The tilt proof in a box of the page, as large as the box. */
import { useEffect, useRef, useState } from 'react';
import type { PainterWish } from '../../contract/proof.ts';
import { followProof } from '../../studio/proof/follow-proof.ts';
import type { ProofTrouble } from '../../studio/proof/tilt-proof.ts';
import { createTiltProof } from '../../studio/proof/tilt-proof.ts';
import { useStudio } from '../studio.ts';

/**
 * `?proof=2d` in the address does without WebGL2, for machines whose driver draws it wrong; `?proof=3d` uses it even
 * where it is emulated.
 */
const painterWanted = (): PainterWish => {
  const asked = new URLSearchParams(location.search).get('proof');
  if (asked === '2d') return 'processor';
  return asked === '3d' ? 'card' : 'best';
};

/** A picture larger than this shows no more: the proof has at most 1024 samples a side. */
const MOST_PIXELS_A_SIDE = 1600;

/** @returns the ref of the box that the proof fills, and what keeps it from being drawn as it was. */
export const useProof = () => {
  const studio = useStudio();
  const box = useRef<HTMLDivElement>(null);
  const [trouble, setTrouble] = useState<ProofTrouble>();
  useEffect(() => {
    const host = box.current;
    if (host === null) return undefined;
    const proof = createTiltProof(host, painterWanted(), setTrouble);
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
  return { box, trouble };
};
