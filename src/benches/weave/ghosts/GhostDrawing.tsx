/** The map of ghosts over its picture: the stronger a ghost, the fuller its colour. */
import { useEffect, useRef } from 'react';
import type { GhostPlace } from '../../../core/plan/ghost-map.ts';
import { sequenceOf } from '../../../job/facts/sheet.ts';
import type { GhostView } from '../../../studio/proof/ghost-map.ts';
import { useJob, useThumbnail } from '../../studio.ts';
import styles from './ghosts.module.css';

interface Props {
  readonly view: GhostView;
  /** Numbered in the drawing as in the list. */
  readonly places: readonly GhostPlace[];
}

/** Steps at which the colour is full. */
const FULL = 20;
/** Vermilion: told from a grey picture by every eye (Okabe and Ito 2008). */
const COLOUR = [213, 94, 0] as const;

const paint = (canvas: HTMLCanvasElement, { columns, rows, steps }: GhostView): void => {
  const context = canvas.getContext('2d');
  if (context === null) return;
  const image = context.createImageData(columns, rows);
  steps.forEach((count, at) => {
    const share = count < 1 ? 0 : 0.25 + 0.65 * Math.min(1, count / FULL);
    image.data.set([...COLOUR, Math.round(255 * share)], at * 4);
  });
  context.putImageData(image, 0, 0);
};

export const GhostDrawing = ({ view, places }: Props) => {
  const job = useJob();
  const canvas = useRef<HTMLCanvasElement>(null);
  const { columns, rows, picture } = view;
  const id = job.recipe?.kind === 'flip' ? job.recipe.pictures[picture] : undefined;
  const thumbnail = useThumbnail(sequenceOf(job).find((frame) => frame.id === id));
  useEffect(() => {
    if (canvas.current !== null) paint(canvas.current, view);
  }, [view]);
  return (
    <div
      className={styles['map']}
      role="img"
      aria-label={`Map of ghosts over picture ${picture + 1}: ${places.length} places marked`}
      style={{ aspectRatio: columns / rows, maxInlineSize: `${(24 * columns) / rows}rem` }}
    >
      {thumbnail !== undefined && <img src={thumbnail} alt="" draggable={false} />}
      <canvas ref={canvas} width={columns} height={rows} />
      {places.map(({ x, y }, at) => (
        <span
          key={`${x} ${y}`}
          className={styles['number']}
          aria-hidden="true"
          style={{ left: `${100 * x}%`, top: `${100 * y}%` }}
        >
          {at + 1}
        </span>
      ))}
    </div>
  );
};
