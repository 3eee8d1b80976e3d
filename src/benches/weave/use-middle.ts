/** The middle of the loupe: kept as shares of the sheet, so that it stays where it is when dots change. */
import type { SheetSpec } from '../../core/weave/sheet-spec.ts';
import { useStudio, useView } from '../studio.ts';

export interface Middle {
  /** In dots from the sheet's top left corner; may be between two dots while it is dragged. */
  readonly x: number;
  readonly y: number;
  /** The dot it lies on, counted from 0. */
  readonly column: number;
  readonly row: number;
  moveTo(x: number, y: number): void;
  moveBy(x: number, y: number): void;
}

const share = (dots: number, whole: number) => Math.min(1, Math.max(0, dots / whole));
const dotAt = (position: number, whole: number) => Math.min(whole - 1, Math.floor(position));

export const useMiddle = ({ widthDots, heightDots }: SheetSpec): Middle => {
  const studio = useStudio();
  const x = useView((view) => view.loupeX) * widthDots;
  const y = useView((view) => view.loupeY) * heightDots;
  const moveTo = (toX: number, toY: number) =>
    studio.view.setState({ loupeX: share(toX, widthDots), loupeY: share(toY, heightDots) });
  return {
    x,
    y,
    column: dotAt(x, widthDots),
    row: dotAt(y, heightDots),
    moveTo,
    // From the store, not from the last drawing: several moves may come before the next.
    moveBy: (byX, byY) => {
      const { loupeX, loupeY } = studio.view.getState();
      moveTo(loupeX * widthDots + byX, loupeY * heightDots + byY);
    },
  };
};
