import { useMemo } from 'react';
import type { GridLayoutOptions } from 'react-aria-components';
import { GridLayout, Rect, Size } from 'react-aria-components';

/** In rem: a card of one line of facts more than most have. Its real height is measured when it is drawn. */
const CARD = { width: 8.25, height: 13.5 };
const GAP = 0.5;

/** Cards in columns, of which only those in view are drawn, and half as many on either side. */
export class FrameLayout<T> extends GridLayout<T> {
  override getVisibleLayoutInfos(rect: Rect) {
    return super.getVisibleLayoutInfos(
      new Rect(rect.x, rect.y - rect.height / 2, rect.width, 2 * rect.height),
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
      minSpace: new Size(GAP * rem, GAP * rem),
      dropIndicatorThickness: 4,
    };
  }, []);
