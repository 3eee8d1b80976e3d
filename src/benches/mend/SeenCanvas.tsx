/** One picture of a print with faults, which turns with the Tilt slider. */
import { useEffect, useRef } from 'react';
import type { SeenScene } from '../../core/mend/seen.ts';
import { drawSeen } from '../../core/mend/seen.ts';
import { eyeOf } from '../../job/facts/eye.ts';
import { useStudio } from '../studio.ts';
import styles from './mend.module.css';

interface Props {
  readonly scene: SeenScene;
  /** What a reader of screens is told; left out where words beside it say it. */
  readonly label?: string;
}

export const SeenCanvas = ({ scene, label }: Props) => {
  const studio = useStudio();
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
      const eyeMm = eyeOf(studio.document.getState().job, studio.view.getState().tilt);
      drawSeen(scene, eyeMm, pixels.data);
      place.getContext('2d')?.putImageData(pixels, 0, 0);
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
    const forget = studio.view.subscribe((now, before) => {
      if (now.tilt !== before.tilt) ask();
    });
    return () => {
      forget();
      watch.disconnect();
      cancelAnimationFrame(asked);
    };
  }, [studio, scene, width, height]);
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
