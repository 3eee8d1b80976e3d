import { useMemo } from 'react';
import type { GridLayoutOptions, Key } from 'react-aria-components';
import { GridLayout, Rect, Size } from 'react-aria-components';

/** In rem: a card of one line of facts more than most have. Its real height is measured when it is drawn. */
const CARD = { width: 8.25, height: 13.5 };
const GAP = 0.5;

/**
 * Cards in columns, of which those in view are drawn, and as much again on either side. A card is measured when it
 * is first drawn; from then on the browser tells when its height changes, since asking lays out the whole
 * page once a card.
 */
export class FrameLayout<T> extends GridLayout<T> {
  readonly #measured = new Set<Key>();
  #lastInView = new Rect();

  override update(context: Parameters<GridLayout<T>['update']>[0]) {
    super.update(context);
    if (context.sizeChanged === true || context.layoutOptionsChanged === true)
      this.#measured.clear();
    for (const key of this.#measured) {
      const card = this.getLayoutInfo(key);
      if (card !== null) card.estimatedSize = false;
    }
  }

  override updateItemSize(key: Key, size: Size) {
    this.#measured.add(key);
    return super.updateItemSize(key, size);
  }

  override getVisibleLayoutInfos(rect: Rect) {
    const room = this.virtualizer?.size ?? new Size();
    // Where something is to be dropped is asked for with a narrow one.
    if (rect.area > 0 && rect.width < room.width) return super.getVisibleLayoutInfos(rect);
    // Scrolled out of the window, the list keeps what was seen of it last.
    if (rect.area > 0) this.#lastInView = rect;
    const { x, y, width, height } = this.#lastInView;
    return super.getVisibleLayoutInfos(
      new Rect(x, y - room.height, width, height + 2 * room.height),
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
