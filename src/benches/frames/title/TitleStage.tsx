/** The title on the print, to be dragged to its place. */
import { useId, useRef } from 'react';
import { moveTyped } from '../../../job/edits/typed.ts';
import { sequenceOf } from '../../../job/facts/sheet.ts';
import { onPrint } from '../../../job/facts/place.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import type { Typed } from '../../../job/schema/typed.ts';
import { useGrip } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import { Picture } from '../place/Picture.tsx';
import shared from '../picture-stage.module.css';
import styles from './title.module.css';

const STEP_MM = 1;
const HIGHEST_REM = 26;

interface Spot {
  readonly rightMm: number;
  readonly downMm: number;
}

const tenth = (mm: number): number => Math.round(10 * mm) / 10 + 0;

interface Props {
  readonly job: Job;
  readonly frame: Frame;
  readonly typed: Typed;
}

export const TitleStage = ({ job, frame, typed }: Props) => {
  const { change } = useStudio();
  const area = useRef<HTMLDivElement>(null);
  const keys = useId();
  const { widthMm, heightMm } = job.print;
  const move = (to: Spot, how?: string) => void change(...moveTyped(frame, to, how));
  const { draft, handlers } = useGrip<Spot, Spot>({
    area,
    take: () => ({ rightMm: typed.rightMm, downMm: typed.downMm }),
    pull: ({ rightMm, downMm }, { dx, dy, width, height }) => ({
      rightMm: tenth(rightMm + (dx * widthMm) / width),
      downMm: tenth(downMm + (dy * heightMm) / height),
    }),
    drop: (to) => move(to),
    step: (right, down, big) => {
      const mm = big ? 10 * STEP_MM : STEP_MM;
      move(
        { rightMm: tenth(typed.rightMm + right * mm), downMm: tenth(typed.downMm + down * mm) },
        'keys',
      );
    },
  });
  const at = draft ?? typed;
  const mmPerPx = 1 / typed.pxPerMm;
  const under = sequenceOf(job)[0];
  return (
    <div>
      <div
        ref={area}
        className={`${shared['stage']} ${styles['stage']}`}
        role="application"
        aria-label="Title on the print"
        aria-describedby={keys}
        tabIndex={0}
        style={{
          aspectRatio: widthMm / heightMm,
          maxWidth: `${(HIGHEST_REM * widthMm) / heightMm}rem`,
        }}
        {...handlers}
      >
        <svg viewBox={`0 0 ${widthMm} ${heightMm}`} aria-hidden="true">
          {under !== undefined && <Picture key={under.id} frame={under} at={onPrint(job, under)} />}
          <Picture
            frame={frame}
            at={{
              a: mmPerPx,
              b: 0,
              x0: widthMm / 2 + at.rightMm - (frame.widthPx * mmPerPx) / 2,
              y0: heightMm / 2 + at.downMm - (frame.heightPx * mmPerPx) / 2,
            }}
          />
        </svg>
      </div>
      <p id={keys} className={styles['keys']}>
        Drag the title to its place. Keys: arrows move it by 1 mm, with Shift by 10 mm.
      </p>
    </div>
  );
};
