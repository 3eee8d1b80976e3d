import { onPrint } from '../../job/facts/place.ts';
import type { Frame } from '../../job/schema/job.ts';
import { useJob, useThumbnail } from '../studio.ts';
import styles from './FrameList.module.css';
import { PictureOf } from './place/Picture.tsx';

interface Props {
  readonly frame: Frame;
}

/** A picture that is placed or lit by itself, as it lies on the print. */
const Placed = ({ frame, href }: Props & { readonly href: string }) => {
  const job = useJob();
  const { widthMm, heightMm } = job.print;
  return (
    <svg
      viewBox={`0 0 ${widthMm} ${heightMm}`}
      className={styles['placed']}
      style={{ aspectRatio: widthMm / heightMm }}
      aria-hidden="true"
    >
      {/* Paper beside the picture. */}
      <rect width={widthMm} height={heightMm} fill="#ffffff" />
      <PictureOf frame={frame} href={href} at={onPrint(job, frame)} />
    </svg>
  );
};

/** The picture alone; its name stands beside it. Its place is kept before it is there. */
export const Thumbnail = ({ frame }: Props) => {
  const picture = useThumbnail(frame);
  if (picture === undefined)
    return (
      <div
        className={styles['blank']}
        style={{ aspectRatio: `${frame.widthPx} / ${frame.heightPx}` }}
      />
    );
  return frame.place === undefined && frame.light === undefined ? (
    <img src={picture} alt="" draggable={false} className={styles['thumbnail']} />
  ) : (
    <Placed frame={frame} href={picture} />
  );
};
