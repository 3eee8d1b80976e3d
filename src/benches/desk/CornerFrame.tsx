/** A photo with four corners to drag or to move by keys, and whatever is drawn over it. */
import type { KeyboardEvent, PointerEvent, ReactNode } from 'react';
import { useEffect, useRef } from 'react';
import type { PhotoCorners } from '../../core/pitch/photo/photo.ts';
import styles from './CornerFrame.module.css';

const CORNERS = ['top left', 'top right', 'bottom right', 'bottom left'] as const;
const keys: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Somewhere to begin dragging from. */
export const looseCorners = (widthPx: number, heightPx: number): PhotoCorners => {
  const at = (x: number, y: number) => ({ xPx: x * widthPx, yPx: y * heightPx });
  return [at(0.1, 0.1), at(0.9, 0.1), at(0.9, 0.9), at(0.1, 0.9)];
};

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

export const CornerFrame = (props: Props) => {
  const { widthPx, heightPx, corners, onCorners } = props;
  const picture = useObjectUrl(props.file);
  const box = useRef<HTMLDivElement>(null);
  const move = (corner: number, xPx: number, yPx: number) => {
    const to = {
      xPx: Math.max(0, Math.min(widthPx, xPx)),
      yPx: Math.max(0, Math.min(heightPx, yPx)),
    };
    onCorners(corners.map((at, i) => (i === corner ? to : at)) as unknown as PhotoCorners);
  };
  const onMove = (corner: number, event: PointerEvent<HTMLButtonElement>) => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const rect = box.current?.getBoundingClientRect();
    if (rect === undefined) return;
    move(
      corner,
      ((event.clientX - rect.left) / rect.width) * widthPx,
      ((event.clientY - rect.top) / rect.height) * heightPx,
    );
  };
  const onKey = (corner: number, event: KeyboardEvent) => {
    const step = keys[event.key];
    const at = corners[corner];
    if (step === undefined || at === undefined) return;
    event.preventDefault();
    const times = event.shiftKey ? 20 : 1;
    move(corner, at.xPx + step[0] * times, at.yPx + step[1] * times);
  };
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
      {corners.map(({ xPx, yPx }, corner) => (
        <button
          key={corner}
          type="button"
          className={styles['handle']}
          style={{ left: `${(100 * xPx) / widthPx}%`, top: `${(100 * yPx) / heightPx}%` }}
          aria-label={`${props.cornerName} ${CORNERS[corner] ?? ''}, at ${Math.round(xPx)}, ${Math.round(yPx)}; arrow keys move it`}
          onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
          onPointerMove={(event) => onMove(corner, event)}
          onKeyDown={(event) => onKey(corner, event)}
        />
      ))}
    </div>
  );
};
