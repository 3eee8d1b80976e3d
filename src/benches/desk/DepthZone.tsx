/** Depths on a drawing by how the lens shows them: in colour, and hatched where things break up. */
import type { SVGProps } from 'react';
import styles from './DepthZone.module.css';

interface Props extends Pick<SVGProps<SVGRectElement>, 'x' | 'y' | 'width' | 'height'> {
  readonly quality: 'sharp' | 'soft' | 'broken';
}

export const DepthZone = ({ quality, ...area }: Props) => (
  <>
    <rect {...area} className={styles[quality]} />
    {quality === 'broken' && <rect {...area} fill="url(#breaks-up)" />}
  </>
);

/** Once in the definitions of a drawing with such zones. */
export const BreaksUp = () => (
  <pattern id="breaks-up" width="8" height="8" patternUnits="userSpaceOnUse">
    <path d="M0 8 8 0" className={styles['hatch']} />
  </pattern>
);
