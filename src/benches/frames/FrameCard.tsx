/** One frame of the sequence: its picture, its name, and what there is to say of it. */
import { sayInvented } from '../../job/facts/made.ts';
import type { Frame } from '../../job/schema/job.ts';
import { Name } from '../../ui/index.ts';
import { useWork } from '../studio.ts';
import styles from './FrameList.module.css';
import { Thumbnail } from './Thumbnail.tsx';

/** To be seen: the card is dragged wherever it is taken. */
const Grip = () => (
  <span className={styles['grip']} aria-hidden="true">
    <svg viewBox="0 0 12 20">
      <path d="M3 3v14M9 3v14" />
    </svg>
  </span>
);

const saySlotsOf = (slots: string): string => {
  if (slots === '') return 'in no slot';
  if (!/^\d/.test(slots)) return slots;
  return `${/^\d+$/.test(slots) ? 'slot' : 'slots'} ${slots}`;
};

interface Props {
  readonly frame: Frame;
  readonly number: number;
  /** "1–3, 6"; empty when no slot shows it; words where it lies over them. */
  readonly slots: string;
  /** Of what is said beneath the name. */
  readonly aboutId: string;
}

export const FrameCard = ({ frame, number, slots, aboutId }: Props) => {
  const lost = useWork((work) => work.missingOriginals.has(frame.id));
  return (
    <>
      <div className={styles['picture']}>
        <Thumbnail frame={frame} />
        <span className={styles['number']}>{number}</span>
        <Grip />
      </div>
      <p className={styles['name']}>
        <Name>{frame.name}</Name>
      </p>
      <span id={aboutId} className={styles['facts']}>
        {frame.widthPx} × {frame.heightPx} · {frame.kind}
        {lost && <b className={styles['lost']}>original missing</b>}
        {frame.made !== undefined && (
          <span className={styles['made']}>
            {frame.made.way === 'stage' ? 'rendered here, view' : 'made'} {frame.made.place} of{' '}
            {frame.made.count}
            {frame.made.way !== 'stage' && (
              <>
                , <span>{sayInvented(frame.made.invented)}</span>
              </>
            )}
          </span>
        )}
        <span className={slots === '' ? styles['unused'] : styles['slots']}>
          {saySlotsOf(slots)}
        </span>
      </span>
    </>
  );
};
