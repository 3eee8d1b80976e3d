/** The paper of a strip, and how much of the strip fits on it. */
import { FAR_MARGIN_MM, LABEL_MARGIN_MM, bandsWithin } from './strip-layout.ts';
import type { Ribs } from '../weave/sheet-spec.ts';

/** Width and height in millimetres, short side first: ISO 216, and 8.5 × 11 in. */
export const papers = {
  a4: { label: 'A4', sizeMm: [210, 297] },
  a3: { label: 'A3', sizeMm: [297, 420] },
  letter: { label: 'Letter', sizeMm: [215.9, 279.4] },
} as const;
export type PaperName = keyof typeof papers;

export interface Paper {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Printer margin, the same at each edge. */
  readonly marginMm: number;
}

export interface StripRoom {
  /** Longest bands across the ribs; below 0 where not even the labels fit. */
  readonly acrossMm: number;
  /** Most bands; no strip below 3. */
  readonly bands: number;
}

export const stripRoom = (paper: Paper, ribs: Ribs): StripRoom => {
  const width = paper.widthMm - 2 * paper.marginMm;
  const height = paper.heightMm - 2 * paper.marginMm;
  const [across, along] = ribs === 'upright' ? [width, height] : [height, width];
  // Rounding may lose up to a dot at each side.
  return {
    acrossMm: across - LABEL_MARGIN_MM - FAR_MARGIN_MM - 0.5,
    bands: bandsWithin(along - 0.5),
  };
};

/** Paper needed for bands of this length across the ribs, margins and labels included. */
export const paperAcrossMm = (acrossMm: number, marginMm: number): number =>
  acrossMm + LABEL_MARGIN_MM + FAR_MARGIN_MM + 0.5 + 2 * marginMm;
