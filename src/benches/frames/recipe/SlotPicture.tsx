/** A slot's picture in the strip: a frame, two laid over one another by their shares, or a tone. */
import type { SlotContent } from '../../../core/frames/recipes.ts';
import type { Frame } from '../../../job/schema/job.ts';
import { Thumbnail } from '../Thumbnail.tsx';
import styles from './recipe.module.css';

interface Props {
  readonly content: SlotContent;
  readonly frameOf: (id: string) => Frame | undefined;
  /** Width over height of what has no frame. */
  readonly shape: number;
}

export const SlotPicture = ({ content: { parts, plain }, frameOf, shape }: Props) => {
  if (plain !== undefined)
    return <div className={styles['plain']} data-tone={plain} style={{ aspectRatio: shape }} />;
  const layers = parts.map(({ frame, weight }, at) => {
    const found = frameOf(frame);
    return (
      <div key={at} className={styles['layer']} style={at === 0 ? {} : { opacity: weight }}>
        {found !== undefined && <Thumbnail frame={found} />}
      </div>
    );
  });
  return <div className={styles['layers']}>{layers}</div>;
};
