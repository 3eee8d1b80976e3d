/** A photo with four corners to drag or to move by keys, and whatever is drawn over it. */
import type { ReactNode, RefObject } from 'react';
import { useEffect, useRef } from 'react';
import type { PhotoCorners, PhotoPoint } from '../../core/pitch/photo/photo.ts';
import { useGrip } from '../../ui/index.ts';
import styles from './CornerFrame.module.css';

const CORNERS = ['top left', 'top right', 'bottom right', 'bottom left'] as const;

/** Somewhere to begin dragging from. */
export const looseCorners = (widthPx: number, heightPx: number): PhotoCorners => {
  const at = (x: number, y: number) => ({ xPx: x * widthPx, yPx: y * heightPx });
  return [at(0.1, 0.1), at(0.9, 0.1), at(0.9, 0.9), at(0.1, 0.9)];
};

/** A share of the way from one place of the photo to another. */
export const placeBetween = (a: PhotoPoint, b: PhotoPoint, share: number): PhotoPoint => ({
  xPx: a.xPx + (b.xPx - a.xPx) * share,
  yPx: a.yPx + (b.yPx - a.yPx) * share,
});

interface Props {
  readonly file: File;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly corners: PhotoCorners;
  /** Of the photo. */
  readonly alt: string;
  /** What a corner is called: "Corner mark". */
  readonly cornerName: string;
  /** Of what is drawn over it, in pixels of the photo. */
  readonly drawnLabel: string;
  readonly children?: ReactNode;
  onCorners(corners: PhotoCorners): void;
}

/** An address for the file while the picture stands; set past React, which need not know it. */
const useObjectUrl = (file: File) => {
  const picture = useRef<HTMLImageElement>(null);
  useEffect(() => {
    const made = URL.createObjectURL(file);
    if (picture.current !== null) picture.current.src = made;
    return () => URL.revokeObjectURL(made);
  }, [file]);
  return picture;
};

interface CornerProps extends Props {
  readonly corner: number;
  readonly box: RefObject<HTMLDivElement | null>;
}

const Corner = ({ corner, box, corners, widthPx, heightPx, ...props }: CornerProps) => {
  const at = corners[corner] ?? { xPx: 0, yPx: 0 };
  const move = (xPx: number, yPx: number) => {
    const to = {
      xPx: Math.max(0, Math.min(widthPx, xPx)),
      yPx: Math.max(0, Math.min(heightPx, yPx)),
    };
    props.onCorners(corners.map((old, i) => (i === corner ? to : old)) as unknown as PhotoCorners);
  };
  const { handlers } = useGrip({
    area: box,
    take: () => at,
    pull: (_, { x, y, width, height }) => move((x / width) * widthPx, (y / height) * heightPx),
    cancel: ({ xPx, yPx }) => move(xPx, yPx),
    step: (right, down, big) => {
      const times = big ? 20 : 1;
      move(at.xPx + right * times, at.yPx + down * times);
    },
  });
  return (
    <button
      type="button"
      className={styles['handle']}
      style={{ left: `${(100 * at.xPx) / widthPx}%`, top: `${(100 * at.yPx) / heightPx}%` }}
      aria-label={`${props.cornerName} ${CORNERS[corner] ?? ''}, at ${Math.round(at.xPx)}, ${Math.round(at.yPx)}; arrow keys move it`}
      {...handlers}
    />
  );
};

export const CornerFrame = (props: Props) => {
  const { widthPx, heightPx } = props;
  const picture = useObjectUrl(props.file);
  const box = useRef<HTMLDivElement>(null);
  return (
    <div ref={box} className={styles['photo']}>
      <img ref={picture} alt={props.alt} draggable={false} />
      <svg
        viewBox={`0 0 ${widthPx} ${heightPx}`}
        preserveAspectRatio="none"
        role="img"
        aria-label={props.drawnLabel}
      >
        {props.children}
      </svg>
      {CORNERS.map((name, corner) => (
        <Corner key={name} {...props} corner={corner} box={box} />
      ))}
    </div>
  );
};
