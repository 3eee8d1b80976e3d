/**
 * The kinds of file a sheet can be: all that is said of each, on the page and on the disk. Who writes them is in
 * sheet-writers.ts.
 */

interface FileTypeFacts {
  readonly label: string;
  /** What it is for, so that the choice is not a guess. */
  readonly use: string;
  /** For the dialog that asks where to save. */
  readonly description: string;
  /** With its dot. */
  readonly extension: string;
  readonly mimeType: string;
  /** Bytes a dot takes in the file: measured on demo sheets and the poster; noise takes up to 3. */
  readonly bytesPerDot: number;
  /** A page of the print's exact size, which drivers are told to print at its actual size. */
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
    bytesPerDot: 0.5,
    isPage: true,
  },
};
