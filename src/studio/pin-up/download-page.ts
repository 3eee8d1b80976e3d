import type { LengthUnit } from '../../core/units/parse.ts';
import { downloadBlob } from '../keep/download.ts';
import type { SavedPdf } from './plain-pdf.ts';

/** Hands a page to the browser as a download. @returns what to tell the person; the paper comes first */
export const downloadPage = (pdf: SavedPdf, fileName: string, unit: LengthUnit): string => {
  downloadBlob(new Blob([pdf.bytes], { type: 'application/pdf' }), fileName);
  return `One page of ${unit === 'mm' ? 'A4' : 'Letter'} was made`;
};

/** A sentence for letters that the type lacks, to follow another; empty where it has them all. */
export const sayLost = ({ lost }: SavedPdf): string =>
  lost.length === 0 ? '' : ` Its plain type lacks ${lost.join(' ')}: “?” stands there instead.`;
