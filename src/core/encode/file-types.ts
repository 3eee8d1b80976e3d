/** What the page and the disk need to know of each kind of sheet file. `sheet-writers.ts` holds their writers. */

interface FileTypeFacts {
  readonly label: string;
  /** What the file is for, shown beside the choice. */
  readonly use: string;
  /** Shown in the dialog that asks where to save. */
  readonly description: string;
  /** With the dot. */
  readonly extension: string;
  readonly mimeType: string;
  /** Bytes per dot to keep room for: the larger of those in measured-sheets.ts; noise takes up to 3. */
  readonly bytesPerDot: number;
  /** True for a page of the print’s exact size, printed at actual size. */
  readonly isPage: boolean;
}

export type SheetFileType = 'png' | 'tiff' | 'pdf';

export const sheetFileTypes: Readonly<Record<SheetFileType, FileTypeFacts>> = {
  png: {
    label: 'PNG',
    use: 'Read everywhere; print it by its dots or at 100 %.',
    description: 'PNG picture',
    extension: '.png',
    mimeType: 'image/png',
    bytesPerDot: 0.85,
    isPage: false,
  },
  tiff: {
    label: 'TIFF',
    use: 'For printing programs that want one; says the dpi exactly. A larger file.',
    description: 'TIFF picture',
    extension: '.tif',
    mimeType: 'image/tiff',
    bytesPerDot: 1.7,
    isPage: false,
  },
  pdf: {
    label: 'PDF',
    use: 'A page of the print’s exact size: for drivers and print shops that take pages.',
    description: 'PDF page',
    extension: '.pdf',
    mimeType: 'application/pdf',
    bytesPerDot: 0.85,
    isPage: true,
  },
};
