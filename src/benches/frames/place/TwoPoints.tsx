/** The same two points in both pictures, each to be dragged or moved by keys, with a closer look at the one in hand. */
import type { RefObject } from 'react';
import { useRef, useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import type { Point } from '../../../core/numeric/similarity.ts';
import { throughTwo } from '../../../core/numeric/similarity-fit.ts';
import { moved } from '../../../core/numeric/similarity.ts';
import { betweenAsLaid } from '../../../job/facts/laid.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { layOnOther } from '../../../studio/frames/match.ts';
import { Button, Columns, Notice, Prose, Row, Stack, useGrip } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import styles from './place.module.css';
import { usePreview } from './use-preview.ts';

type Two = readonly [Point, Point];

const within = ({ widthPx, heightPx }: Frame, { x, y }: Point): Point => ({
  x: Math.max(0, Math.min(widthPx, x)),
  y: Math.max(0, Math.min(heightPx, y)),
});

interface HandleProps {
  readonly frame: Frame;
  readonly points: Two;
  readonly which: 0 | 1;
  readonly box: RefObject<HTMLDivElement | null>;
  onPoint(which: 0 | 1, to: Point): void;
  onHold(which: 0 | 1): void;
}

const Handle = ({ frame, points, which, box, onPoint, onHold }: HandleProps) => {
  const { widthPx, heightPx } = frame;
  const at = points[which];
  const move = (to: Point) => onPoint(which, within(frame, to));
  const { handlers } = useGrip({
    area: box,
    take: () => at,
    pull: (from, { dx, dy, width, height }) =>
      move({ x: from.x + (dx / width) * widthPx, y: from.y + (dy / height) * heightPx }),
    cancel: move,
    step: (right, down, big) => {
      // Of a large photograph one pixel is too little to see.
      const step = Math.max(1, Math.round(widthPx / 1600)) * (big ? 20 : 1);
      move({ x: at.x + right * step, y: at.y + down * step });
    },
  });
  return (
    <button
      type="button"
      className={styles['point']}
      style={{ left: `${(100 * at.x) / widthPx}%`, top: `${(100 * at.y) / heightPx}%` }}
      aria-label={`Point ${which + 1} in ${nameInText(frame.name)}, at ${Math.round(at.x)}, ${Math.round(at.y)}; arrow keys move it`}
      onFocus={() => onHold(which)}
      {...handlers}
    >
      {which + 1}
    </button>
  );
};

/** How much closer the closer look is than the picture itself. */
const CLOSER = 4;

interface SideProps {
  readonly frame: Frame;
  readonly points: Two;
  onPoint(which: 0 | 1, to: Point): void;
}

const Side = ({ frame, points, onPoint }: SideProps) => {
  const box = useRef<HTMLDivElement>(null);
  const href = usePreview(frame);
  const [held, setHeld] = useState<0 | 1>(0);
  const { widthPx, heightPx } = frame;
  const at = points[held];
  const common = { frame, points, box, onPoint, onHold: setHeld };
  return (
    <Stack as="figure" gap={2} className={styles['side']}>
      <figcaption>{nameInText(frame.name)}</figcaption>
      <div ref={box} className={styles['picture']} style={{ aspectRatio: widthPx / heightPx }}>
        {href !== undefined && <img src={href} alt="" draggable={false} />}
        <Handle {...common} which={0} />
        <Handle {...common} which={1} />
      </div>
      <svg
        className={styles['closer']}
        viewBox={`${at.x - widthPx / CLOSER / 2} ${at.y - widthPx / CLOSER / 4} ${widthPx / CLOSER} ${widthPx / CLOSER / 2}`}
        role="img"
        aria-label={`Around point ${held + 1}, ${CLOSER} times as large`}
      >
        {href !== undefined && (
          <image href={href} width={widthPx} height={heightPx} preserveAspectRatio="none" />
        )}
        <path
          className={styles['cross']}
          vectorEffect="non-scaling-stroke"
          d={`M${at.x - widthPx} ${at.y}h${2 * widthPx}M${at.x} ${at.y - widthPx}v${2 * widthPx}`}
        />
      </svg>
    </Stack>
  );
};

interface Props {
  readonly job: Job;
  readonly frame: Frame;
  readonly other: Frame;
  onDone(): void;
}

export const TwoPoints = ({ job, frame, other, onDone }: Props) => {
  const studio = useStudio();
  const [fault, setFault] = useState<string>();
  const [ours, setOurs] = useState<Two>([
    { x: 0.3 * frame.widthPx, y: 0.4 * frame.heightPx },
    { x: 0.7 * frame.widthPx, y: 0.6 * frame.heightPx },
  ]);
  // They begin where the two lie on each other now.
  const [theirs, setTheirs] = useState<Two>(() => {
    const between = betweenAsLaid(job, frame, other);
    return [within(other, moved(between, ours[0])), within(other, moved(between, ours[1]))];
  });
  const put = (points: Two, which: 0 | 1, to: Point): Two =>
    which === 0 ? [to, points[1]] : [points[0], to];
  const lay = () => {
    const between = throughTwo(ours[0], theirs[0], ours[1], theirs[1]);
    const refused =
      between === undefined
        ? 'The two points of a picture lie on each other: move one of them.'
        : layOnOther(studio, frame, other, between);
    setFault(refused);
    if (refused !== undefined) return;
    studio.announce(`${nameInText(frame.name)} lies on ${nameInText(other.name)} by two points.`);
    onDone();
  };
  return (
    <Stack>
      <Prose>
        Put 1 on the same spot in both pictures, and 2 on another, as far apart as can be: drag
        them, or move them with the arrow keys.
      </Prose>
      <Columns least={15}>
        <Side frame={frame} points={ours} onPoint={(which, to) => setOurs(put(ours, which, to))} />
        <Side
          frame={other}
          points={theirs}
          onPoint={(which, to) => setTheirs(put(theirs, which, to))}
        />
      </Columns>
      {fault !== undefined && <Notice kind="problem">{fault}</Notice>}
      <Row gap={2}>
        <Button look="primary" onClick={lay}>
          Lay them on each other
        </Button>
        <Button onClick={onDone}>Leave it</Button>
      </Row>
    </Stack>
  );
};
