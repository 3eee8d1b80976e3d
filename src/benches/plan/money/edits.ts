import type { JobStock } from '../../../job/stock.ts';
import { setStock } from '../../../job/shelf-use.ts';
import { tryChange } from '../../../state/change.ts';

/** Changes what the job keeps of its stock; undefined leaves a field out again. */
export const changeStock = (
  label: string,
  change: { readonly [Field in keyof JobStock]?: JobStock[Field] | undefined },
): string | undefined => tryChange(label, (job) => setStock(job, change), `stock.${label}`);
