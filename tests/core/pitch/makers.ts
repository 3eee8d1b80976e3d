/**
 * Makers, each with a lens sheet, a printer, a ruler and eyes of their own; nothing here comes from the readings that
 * are tested. A lens is off by up to 1 %, paper and feed stretch by up to 0.3 % each way, steadily (our own values, as
 * in tests/bench/calibrate.bench.mjs).
 */

import { randomOf } from '../../bench/shared/random.mjs';

export interface Maker {
  /** Woven pitch that suits lens and printer, in the print's own inches. */
  readonly suitsLpi: number;
  readonly stretchAcross: number;
  readonly stretchAlong: number;
  /** ±1, even. */
  either(): number;
  /** Normal, standard deviation 1. */
  normal(): number;
}

export const makerOf = (seed: number): Maker => {
  const random = randomOf(7919 * seed + 11);
  for (let i = 0; i < 5; i += 1) random();
  const either = () => 2 * random() - 1;
  const stretchAcross = 1 + 0.003 * either();
  return {
    suitsLpi: 60 * (1 + 0.01 * either()) * stretchAcross,
    stretchAcross,
    stretchAlong: 1 + 0.003 * either(),
    either,
    normal: () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random()),
  };
};

/** How a maker misjudges one count, in fringes, before rounding it to a half. */
export const eyes = {
  /** A sixth of a fringe in all. */
  careful: ({ normal }: Maker) => normal() / 6,
  /** Each end guessed anywhere within a quarter of a fringe. */
  careless: ({ either }: Maker) => (either() + either()) / 4,
} as const;

/** Fringes that a maker writes down for a band: relation 9, misjudged, then to the half, as the bench asks. */
export const countedBy = (
  maker: Maker,
  eye: (maker: Maker) => number,
  bandLpi: number,
  acrossIn: number,
): number =>
  Math.max(0, Math.round(2 * (Math.abs(bandLpi - maker.suitsLpi) * acrossIn + eye(maker))) / 2);

/** A length by a ruler with tenths of a millimetre, whose ends are each read amiss by up to a tenth. */
export const measuredBy = ({ either }: Maker, trueMm: number): number =>
  Math.round(10 * (trueMm + 0.05 * (either() + either()))) / 10;
