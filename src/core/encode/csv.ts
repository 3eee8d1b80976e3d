/** Comma-separated text (RFC 4180) that a spreadsheet opens as what it is, and never as a formula. */

/** A cell that begins so may be taken for a formula and run (OWASP, “CSV Injection”). */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * A name as a cell. What might be a formula gets an apostrophe before it, which spreadsheets take as “this is text”;
 * quotes are doubled, and every cell of text stands in quotes.
 */
const textCell = (text: string): string =>
  `"${(FORMULA.test(text) ? `'${text}` : text).replaceAll('"', '""')}"`;

/** A figure as a plain decimal; empty where it is not known. */
const figureCell = (figure: number | undefined): string =>
  figure === undefined || !Number.isFinite(figure) ? '' : String(figure);

export type CsvCell = string | number | undefined;

/** Rows of cells, each row ended by CR LF; begins with a byte order mark, so that accents are read right. */
export const csvOf = (rows: readonly (readonly CsvCell[])[]): string =>
  `\uFEFF${rows
    .map((row) =>
      row.map((cell) => (typeof cell === 'string' ? textCell(cell) : figureCell(cell))).join(','),
    )
    .map((row) => `${row}\r\n`)
    .join('')}`;
