import type { JobStock } from '../schema/stock.ts';
import { setStock } from '../../materials/use-in-job.ts';
import { tryChange } from '../../state/change.ts';

/** Changes what the job keeps of its stock; undefined leaves a field out again. */
export const changeStock = (
  label: string,
  change: { readonly [Field in keyof JobStock]?: JobStock[Field] | undefined },
): string | undefined => tryChange(label, (job) => setStock(job, change), `stock.${label}`);
