import { useMemo } from 'react';
import type { GridLayoutOptions } from 'react-aria-components';
import { GridLayout, Rect, Size } from 'react-aria-components';

/** In rem. All cards are alike, and none is measured: asking for a height lays out the whole page once a card. */
const CARD = { width: 8.25, height: 13.5 };
const GAP = 0.5;

/** Cards in columns, of which those in view are drawn, and half as much on either side. */
export class FrameLayout<T> extends GridLayout<T> {
  #lastInView = new Rect();

  override getVisibleLayoutInfos(rect: Rect) {
    const room = this.virtualizer?.size ?? new Size();
    // Where something is to be dropped is asked for with a narrow one.
    if (rect.area > 0 && rect.width < room.width) return super.getVisibleLayoutInfos(rect);
    // Scrolled out of the window, the list keeps what was seen of it last.
    if (rect.area > 0) this.#lastInView = rect;
    const { x, y, width, height } = this.#lastInView;
    return super.getVisibleLayoutInfos(
      new Rect(x, y - room.height / 2, width, height + room.height),
    );
  }
}

/** The measures of the list, by the size of its letters. */
export const useFrameLayout = (): GridLayoutOptions =>
  useMemo(() => {
    const rem = parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
    const card = new Size(CARD.width * rem, CARD.height * rem);
    return {
      minItemSize: card,
      maxItemSize: new Size(Infinity, card.height),
      // Of a height that is known beforehand.
      preserveAspectRatio: true,
      minSpace: new Size(GAP * rem, GAP * rem),
      dropIndicatorThickness: 4,
    };
  }, []);
