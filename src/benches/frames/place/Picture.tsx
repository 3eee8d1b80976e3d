/** A picture on a drawing of the print. */
import { useId } from 'react';
import { gainsOf } from '../../../core/colour/picture-light.ts';
import type { Similarity } from '../../../core/numeric/similarity.ts';
import type { Frame } from '../../../job/schema/job.ts';
import { usePreview } from './use-preview.ts';

interface PictureProps {
  readonly frame: Frame;
  /** Address of its pixels, of whatever size. */
  readonly href: string | undefined;
  readonly at: Similarity;
  readonly opacity?: number;
}

/** In millimetres of the print, with its own brightness and white. */
export const PictureOf = ({ frame, href, at: { a, b, x0, y0 }, opacity }: PictureProps) => {
  const filter = useId();
  const { light, widthPx, heightPx } = frame;
  const gains = light === undefined ? undefined : gainsOf(light);
  return (
    <>
      {gains !== undefined && (
        <filter id={filter} x="0" y="0" width="1" height="1" colorInterpolationFilters="linearRGB">
          <feColorMatrix
            values={`${gains[0]} 0 0 0 0 0 ${gains[1]} 0 0 0 0 0 ${gains[2]} 0 0 0 0 0 1 0`}
          />
        </filter>
      )}
      {href !== undefined && (
        <image
          href={href}
          width={widthPx}
          height={heightPx}
          preserveAspectRatio="none"
          transform={`matrix(${a} ${b} ${-b} ${a} ${x0} ${y0})`}
          opacity={opacity}
          filter={gains === undefined ? undefined : `url(#${filter})`}
        />
      )}
    </>
  );
};

/** The same, large as soon as it has come. */
export const Picture = (props: Omit<PictureProps, 'href'>) => (
  <PictureOf {...props} href={usePreview(props.frame)} />
);
