/** Forecasts of file and weave: hold what was measured, and follow one's own sheets. */
import { expect, test } from 'vitest';
import { measuredSheets } from '../../../src/core/encode/measured-sheets.ts';
import { sheetFileTypes } from '../../../src/core/encode/file-types.ts';
import type { WovenSheet } from '../../../src/core/plan/forecast.ts';
import { bytesOf, weaveSecondsOf } from '../../../src/core/plan/forecast.ts';

const woven = (bytes: number, seconds = 10): WovenSheet => ({
  fileType: 'png',
  dots: 1e6,
  bytes,
  seconds,
});

test('each measured sheet lies within its own forecast, and uncompressed dots are never fewer', () => {
  for (const { fileType, dots, bytes, seconds } of measuredSheets) {
    const told = bytesOf(fileType, dots, []);
    expect(told.least).toBeLessThanOrEqual(bytes);
    expect(told.most).toBeGreaterThanOrEqual(bytes);
    // Three bytes a dot are what the dots themselves take.
    expect(bytes / dots).toBeLessThan(3);
    const time = weaveSecondsOf(dots, []);
    expect(time.least).toBeLessThanOrEqual(seconds);
    expect(time.most).toBeGreaterThanOrEqual(seconds);
  }
});

test('every type was measured, and what room is asked for lies within it', () => {
  for (const fileType of ['png', 'tiff', 'pdf'] as const) {
    const sheets = measuredSheets.filter((sheet) => sheet.fileType === fileType);
    expect(new Set(sheets.map(({ of }) => of)).size).toBe(6);
    const told = bytesOf(fileType, 1, []);
    expect(sheetFileTypes[fileType].bytesPerDot).toBeGreaterThan(told.least);
    expect(sheetFileTypes[fileType].bytesPerDot).toBeLessThan(1.2 * told.most);
  }
});

test('one sheet of one’s own widens the forecast; three take its place', () => {
  expect(bytesOf('png', 2e6, [woven(2e6)])).toMatchObject({ most: 4e6, from: 'elsewhere' });
  const three = [woven(2e6), woven(1.5e6), woven(1.8e6)];
  expect(bytesOf('png', 2e6, three)).toEqual({ least: 3e6, most: 4e6, from: 'here' });
  expect(bytesOf('tiff', 2e6, three).from).toBe('elsewhere');
});

test('one sheet tells the computer', () => {
  expect(weaveSecondsOf(3e6, [woven(1, 4)])).toEqual({ least: 12, most: 12, from: 'here' });
});
