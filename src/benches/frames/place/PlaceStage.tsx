/** The picture over the outline of the print, and another one through it. */
import type { KeyboardEvent } from 'react';
import { useId, useRef } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import type { Similarity } from '../../../core/numeric/similarity.ts';
import { after } from '../../../core/numeric/similarity.ts';
import { placePicture } from '../../../job/edits/place.ts';
import type { PlaceChange } from '../../../job/facts/place.ts';
import { changedPlace, onPrint, placeFrom } from '../../../job/facts/place.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { useStudio } from '../../studio.ts';
import { Picture } from './Picture.tsx';
import shared from '../picture-stage.module.css';
import styles from './place.module.css';
import { usePlaceGesture } from './use-place-gesture.ts';

/** Room around the print, as a share of its longer side. */
const AROUND = 0.14;
const ZOOM_STEP = 1.01;
const TURN_STEP_DEG = 0.1;

/** What a key does; `big` with Shift. */
const changeByKey = (key: string, big: boolean): PlaceChange | undefined => {
  const mm = big ? 10 : 1;
  const zoom = ZOOM_STEP ** (big ? 10 : 1);
  switch (key) {
    case 'ArrowLeft':
      return { rightMm: -mm, downMm: 0 };
    case 'ArrowRight':
      return { rightMm: mm, downMm: 0 };
    case 'ArrowUp':
      return { rightMm: 0, downMm: -mm };
    case 'ArrowDown':
      return { rightMm: 0, downMm: mm };
    case '+':
    case '=':
      return { zoomBy: zoom };
    case '-':
    case '_':
      return { zoomBy: 1 / zoom };
    case '[':
    case '{':
      return { turnByDeg: -TURN_STEP_DEG * (big ? 10 : 1) };
    case ']':
    case '}':
      return { turnByDeg: TURN_STEP_DEG * (big ? 10 : 1) };
    default:
      return undefined;
  }
};

interface Props {
  readonly job: Job;
  readonly frame: Frame;
  /** Seen through it at half strength. */
  readonly through: Frame | undefined;
}

export const PlaceStage = ({ job, frame, through }: Props) => {
  const { change } = useStudio();
  const svg = useRef<SVGSVGElement>(null);
  const keys = useId();
  const lies = onPrint(job, frame);
  const moveBy = (by: Similarity, how?: string) =>
    void change(...placePicture(frame, placeFrom(job, frame, after(by, lies)), how));
  const gesture = usePlaceGesture({
    svg,
    drop: moveBy,
    wheel: (by) => moveBy(by, 'wheel'),
  });
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape') return gesture.cancel();
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const by = changeByKey(event.key, event.shiftKey);
    if (by === undefined) return;
    event.preventDefault();
    change(...placePicture(frame, changedPlace(job, frame, by), 'keys'));
  };
  const { widthMm, heightMm } = job.print;
  const room = AROUND * Math.max(widthMm, heightMm);
  const at = gesture.by === undefined ? lies : after(gesture.by, lies);
  const around = `M${-room} ${-room}h${widthMm + 2 * room}v${heightMm + 2 * room}h${-widthMm - 2 * room}z`;
  return (
    <>
      <div
        className={`${shared['stage']} ${styles['stage']}`}
        role="application"
        aria-label={`${nameInText(frame.name)} on the print`}
        aria-describedby={keys}
        tabIndex={0}
        style={{ aspectRatio: (widthMm + 2 * room) / (heightMm + 2 * room) }}
        onKeyDown={onKeyDown}
        {...gesture.handlers}
      >
        <svg
          ref={svg}
          viewBox={`${-room} ${-room} ${widthMm + 2 * room} ${heightMm + 2 * room}`}
          aria-hidden="true"
        >
          <rect className={styles['paper']} width={widthMm} height={heightMm} />
          <Picture key={frame.id} frame={frame} at={at} />
          {through !== undefined && (
            <Picture key={through.id} frame={through} at={onPrint(job, through)} opacity={0.5} />
          )}
          <path
            className={styles['outside']}
            fillRule="evenodd"
            d={`${around}M0 0h${widthMm}v${heightMm}h${-widthMm}z`}
          />
          <rect className={styles['edge']} width={widthMm} height={heightMm} />
        </svg>
      </div>
      <p id={keys} className={styles['keys']}>
        Drag to shift, pinch or turn the wheel to zoom. Keys: arrows shift by 1 mm, + and − zoom by
        1 %, [ and ] turn by 0.1°; with Shift ten times as much.
      </p>
    </>
  );
};
