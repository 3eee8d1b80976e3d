/** What one print costs if several share a lens sheet, its paper and its ink. */
import type { Chosen } from './cut-list.ts';
import type { Total } from './costs.ts';
import { totalOf } from './costs.ts';
import { gangSizeMm } from '../job/facts/gang.ts';
import type { Job } from '../job/schema/job.ts';

export interface GangCosts {
  /** One lens sheet, one sheet of paper, the ink for the lens sheet's whole area; by their names. */
  readonly parts: readonly { readonly name: string; readonly price: number | undefined }[];
  /** For each print on the sheet. */
  readonly print: Total;
}

export const gangCostsOf = (
  job: Job,
  { lens, printer, paper }: Chosen,
  prints: number,
): GangCosts => {
  const [widthMm, heightMm] = gangSizeMm(job);
  const ink = printer?.inkPerSquareMetre;
  const parts = [
    { name: 'lens', price: lens?.price, what: 'lens sheet' },
    { name: 'paper', price: paper?.price, what: 'paper' },
    {
      name: 'ink',
      price: ink === undefined ? undefined : (ink * widthMm * heightMm) / 1e6,
      what: 'ink',
    },
  ];
  return {
    parts: parts.map(({ name, price }) => ({ name, price })),
    print: totalOf(
      parts.map(({ price, what }) => {
        if (prints < 1) return { each: undefined, lacks: 'no print lies on the sheet' };
        return price === undefined
          ? { each: undefined, lacks: `the ${what} has no price yet` }
          : { each: price / prints, lacks: undefined };
      }),
    ),
  };
};
