/** The kinds of file a sheet can be: what they are called, on the page and on the disk. */

interface FileTypeFacts {
  readonly label: string;
  /** For the dialog that asks where to save. */
  readonly description: string;
  /** With its dot. */
  readonly extension: string;
  readonly mimeType: string;
}

export type SheetFileType = 'png' | 'tiff' | 'pdf';

export const sheetFileTypes: Readonly<Record<SheetFileType, FileTypeFacts>> = {
  png: {
    label: 'PNG',
    description: 'PNG picture',
    extension: '.png',
    mimeType: 'image/png',
  },
  tiff: {
    label: 'TIFF',
    description: 'TIFF picture',
    extension: '.tif',
    mimeType: 'image/tiff',
  },
  pdf: {
    label: 'PDF',
    description: 'PDF page',
    extension: '.pdf',
    mimeType: 'application/pdf',
  },
};
