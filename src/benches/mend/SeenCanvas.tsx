/** One picture of a print with faults, which turns with the Tilt slider. */
import { useEffect, useRef } from 'react';
import type { SeenScene } from '../../core/mend/seen.ts';
import { drawSeen } from '../../core/mend/seen.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import { eyeOf } from '../../studio/proof/proof-scene.ts';
import styles from './mend.module.css';

const paint = (canvas: HTMLCanvasElement, scene: SeenScene, pixels: ImageData) => {
  drawSeen(scene, eyeOf(documentStore.getState().job, viewStore.getState().tilt), pixels.data);
  canvas.getContext('2d')?.putImageData(pixels, 0, 0);
};

interface Props {
  readonly scene: SeenScene;
  /** What a reader of screens is told; left out where words beside it say it. */
  readonly label?: string;
}

export const SeenCanvas = ({ scene, label }: Props) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { across, along, lying } = scene.frames;
  const [width, height] = lying ? [along, across] : [across, along];
  useEffect(() => {
    const place = canvas.current;
    if (place === null) return undefined;
    const pixels = new ImageData(width, height);
    let asked = 0;
    let isInView = false;
    const draw = () => {
      asked = 0;
      paint(place, scene, pixels);
    };
    const ask = () => {
      if (isInView && asked === 0) asked = requestAnimationFrame(draw);
    };
    // A dozen pictures at every turn are too many; those that are scrolled away can wait.
    const watch = new IntersectionObserver(([entry]) => {
      isInView = entry?.isIntersecting === true;
      ask();
    });
    watch.observe(place);
    const forget = viewStore.subscribe((now, before) => {
      if (now.tilt !== before.tilt) ask();
    });
    return () => {
      forget();
      watch.disconnect();
      cancelAnimationFrame(asked);
    };
  }, [scene, width, height]);
  return (
    <canvas
      ref={canvas}
      className={styles['seen']}
      width={width}
      height={height}
      {...(label === undefined ? { 'aria-hidden': true } : { role: 'img', 'aria-label': label })}
    />
  );
};
