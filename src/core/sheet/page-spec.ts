/** The page a woven sheet is laid on, as plain data: every dot that is not the picture's. */

/** Dots [left, right) × [top, bottom) from the page's top left corner. */
export interface PageBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface PageSpec {
  /** Dots in a row of the page, and rows on it. */
  readonly widthDots: number;
  readonly heightDots: number;
  /** Where the woven sheet lies: the trim and the bleed around it. May reach beyond the page. */
  readonly woven: PageBox;
  /**
   * What of the woven sheet is printed; left out: all of it that lies on the page. A tile of a large
   * print keeps the whole sheet as `woven`, so that pitch and phase are the whole's.
   */
  readonly shown?: PageBox;
  /** Where the print is cut. */
  readonly trim: PageBox;
  /** Gratings of lines at the pitch and phase of the picture's own ribs. */
  readonly rails: readonly PageBox[];
  /** Solid black: marks, label, measuring bar. */
  readonly ink: readonly PageBox[];
}
