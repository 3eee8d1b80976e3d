/** Where each view shows, drawn over the photo: a colour a view slot, lifted places outlined. */
import type { MendPhotoReading } from '../../../core/mend/photo/terms.ts';
import type { PhotoCorners, PhotoPoint } from '../../../core/pitch/photo/photo.ts';
import { slotColour } from '../../../ui/slot-colour.ts';
import { placeBetween } from '../../desk/CornerFrame.tsx';
import styles from '../mend.module.css';

type Good = Extract<MendPhotoReading, { ok: true }>;

interface Props {
  readonly reading: Good;
  readonly corners: PhotoCorners;
  readonly viewSlots: number;
}

/** A cell that is less sure than this is left clear. */
const SHOWN = 0.4;

/** A place of the picture, 0 … 1 from its top left corner; perspective within it is slight. */
const placeIn = ([tl, tr, br, bl]: PhotoCorners, x: number, y: number): PhotoPoint =>
  placeBetween(placeBetween(tl, tr, x), placeBetween(bl, br, x), y);

const outline = (corners: PhotoCorners, x: number, y: number, width: number, height: number) =>
  (
    [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ] as const
  )
    .map(([px, py]) => placeIn(corners, px, py))
    .map(({ xPx, yPx }) => `${xPx},${yPx}`)
    .join(' ');

export const ViewMapCells = ({ reading, corners, viewSlots }: Props) => {
  const { columns, rows, place, trust } = reading.map;
  const cells = Array.from(place.keys()).filter((cell) => (trust[cell] ?? 0) > SHOWN);
  return (
    <>
      {cells.map((cell) => {
        const slot = Math.min(viewSlots - 1, Math.floor((1 - (place[cell] ?? 0)) * viewSlots));
        return (
          <polygon
            key={cell}
            fill={slotColour(slot, viewSlots)}
            fillOpacity={0.45}
            points={outline(
              corners,
              (cell % columns) / columns,
              Math.floor(cell / columns) / rows,
              1 / columns,
              1 / rows,
            )}
          />
        );
      })}
      {reading.lifted.map(({ x, y, width, height }) => (
        <polygon
          key={`${x} ${y}`}
          className={styles['lifted']}
          points={outline(corners, x + 0.5 - width / 2, y + 0.5 - height / 2, width, height)}
        />
      ))}
    </>
  );
};
