import styles from './FrameList.module.css';

interface Props {
  readonly picture: string | undefined;
  /** Width over height, so that the place is kept before the picture is there. */
  readonly shape: number;
}

/** The picture alone; its name stands beside it. */
export const Thumbnail = ({ picture, shape }: Props) =>
  picture === undefined ? (
    <div className={styles['blank']} style={{ aspectRatio: shape }} />
  ) : (
    <img src={picture} alt="" draggable={false} className={styles['thumbnail']} />
  );
