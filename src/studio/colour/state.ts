/** Tables of printer profiles that were made last: each takes a second, and is asked for again and again. */
import type { PrintTable, TableBlob } from '../../contract/colour.ts';

interface Made<T> {
  readonly key: string;
  readonly made: T;
}

export interface Colours {
  print: Made<PrintTable> | undefined;
  look: Made<TableBlob> | undefined;
}

export const createColours = (): Colours => ({ print: undefined, look: undefined });
