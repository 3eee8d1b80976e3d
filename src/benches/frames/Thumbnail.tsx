import type { Frame } from '../../job/schema/job.ts';
import { useThumbnail } from '../studio.ts';
import styles from './FrameList.module.css';

interface Props {
  readonly frame: Frame;
}

/** The picture alone; its name stands beside it. Its place is kept before it is there. */
export const Thumbnail = ({ frame }: Props) => {
  const picture = useThumbnail(frame);
  return picture === undefined ? (
    <div
      className={styles['blank']}
      style={{ aspectRatio: `${frame.widthPx} / ${frame.heightPx}` }}
    />
  ) : (
    <img src={picture} alt="" draggable={false} className={styles['thumbnail']} />
  );
};
