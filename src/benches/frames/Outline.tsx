import { nameInText } from '../../core/names/shown.ts';
import { draggedShift, shiftPicture } from '../../job/edits/shift.ts';
import { areaOf } from '../../job/facts/sheet.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import { useGrip } from '../../ui/index.ts';
import { useChange, useThumbnail } from '../studio.ts';
import styles from './PicturePanel.module.css';

interface Rectangle {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** What holds both the frame and the print, in frame pixels. */
const unionOf = (frame: Frame, area: Rectangle): Rectangle => {
  const left = Math.min(0, area.left);
  const top = Math.min(0, area.top);
  return {
    left,
    top,
    width: Math.max(frame.widthPx, area.left + area.width) - left,
    height: Math.max(frame.heightPx, area.top + area.height) - top,
  };
};

const placed = (part: Rectangle, whole: Rectangle) => ({
  left: `${(100 * (part.left - whole.left)) / whole.width}%`,
  top: `${(100 * (part.top - whole.top)) / whole.height}%`,
  width: `${(100 * part.width) / whole.width}%`,
  height: `${(100 * part.height) / whole.height}%`,
});

/** The print's edge on the first frame. The pointer's way to shift; the sliders are the keyboard's. */
export const Outline = ({ job, frame }: { readonly job: Job; readonly frame: Frame }) => {
  const change = useChange();
  const picture = useThumbnail(frame);
  const area = areaOf(job, frame);
  const whole = unionOf(frame, area);
  const shift = (x: number | undefined, y: number | undefined) => change(...shiftPicture(x, y));
  const { handlers } = useGrip({
    take: () => ({ ...job.placement, whole: whole.width }),
    pull: (from, { dx, dy, width }) => {
      const perPx = from.whole / width;
      shift(
        draggedShift(from.shiftX, dx * perPx, frame.widthPx - area.width),
        draggedShift(from.shiftY, dy * perPx, frame.heightPx - area.height),
      );
    },
    cancel: ({ shiftX, shiftY }) => shift(shiftX, shiftY),
  });
  return (
    <div
      className={styles['outline']}
      // As tall as it may be, at the shape it must have.
      style={{
        aspectRatio: whole.width / whole.height,
        width: `${(18 * whole.width) / whole.height}rem`,
      }}
      {...handlers}
    >
      <div className={styles['paper']} style={placed(area, whole)} />
      {picture !== undefined && (
        <img
          src={picture}
          alt={`${nameInText(frame.name)} with the edge of the print`}
          draggable={false}
          style={placed({ left: 0, top: 0, width: frame.widthPx, height: frame.heightPx }, whole)}
        />
      )}
      <div className={styles['edge']} style={placed(area, whole)} />
    </div>
  );
};
