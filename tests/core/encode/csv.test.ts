/** CSV read back by a reader of the test's own (RFC 4180), and never a cell that begins like a formula. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { csvOf } from '../../../src/core/encode/csv.ts';

/** Cells by RFC 4180: quotes around, doubled within; CR LF ends a row. */
const read = (csv: string): string[][] => {
  const rows: string[][] = [[]];
  let [cell, quoted] = ['', false];
  for (let at = 0; at < csv.length; at += 1) {
    const letter = csv.charAt(at);
    if (quoted) {
      if (letter !== '"') cell += letter;
      else if (csv.charAt(at + 1) === '"') {
        cell += '"';
        at += 1;
      } else quoted = false;
    } else if (letter === '"') quoted = true;
    else if (letter === ',' || csv.startsWith('\r\n', at)) {
      rows.at(-1)?.push(cell);
      cell = '';
      if (letter !== ',') {
        rows.push([]);
        at += 1;
      }
    } else cell += letter;
  }
  rows.pop();
  return rows;
};

test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '=HYPERLINK("http://x","y")'])(
  'a name %j stays a name (OWASP, “CSV Injection”)',
  (name) => {
    const [[cell]] = read(csvOf([[name]]).slice(1)) as [[string]];
    expect(cell).toBe(`'${name}`);
  },
);

test('whatever the names: every cell comes back, and none begins like a formula', () => {
  const names = fc.array(fc.array(fc.string({ unit: 'grapheme' }), { minLength: 1, maxLength: 4 }));
  fc.assert(
    fc.property(names, (rows) => {
      const back = read(csvOf(rows).slice(1));
      expect(back.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
      expect(back.map((row) => row.map((cell) => cell.replace(/^'(?=[=+\-@\t\r])/, '')))).toEqual(
        rows.map((row) => row.map((cell) => cell.replace(/^'(?=[=+\-@\t\r])/, ''))),
      );
    }),
  );
});

test('figures are plain decimals, what is not known is empty, and accents are marked as UTF-8', () => {
  expect(csvOf([['Été', 12.5, undefined, Infinity]])).toBe('\uFEFF"Été",12.5,,\r\n');
});
