/** Saves a comparison of jobs as downloads: a page to print, and a table for a spreadsheet. */
import { csvOf } from '../../core/encode/csv.ts';
import { isoDay } from '../../core/units/day.ts';
import type { Forecast } from '../../materials/shop.ts';
import type { ShopWords } from '../../materials/shop-table.ts';
import { shopCells, shopTable } from '../../materials/shop-table.ts';
import { downloadBlob } from '../keep/download.ts';
import { downloadPage, sayLost } from './download-page.ts';

/** @returns what to tell the person */
export const saveShopPage = async (
  forecasts: readonly Forecast[],
  words: ShopWords,
): Promise<string> => {
  const { shopPdf } = await import('./shop-pdf.ts');
  const day = isoDay(new Date());
  const pdf = await shopPdf(shopTable(forecasts, words), words.units, day);
  const made = downloadPage(pdf, `what each print takes ${day}.pdf`, words.units);
  return `${made}, with these numbers as they are now.${sayLost(pdf)}`;
};

export const saveShopCsv = (
  forecasts: readonly Forecast[],
  words: Pick<ShopWords, 'fileType'>,
): string => {
  const csv = csvOf(shopCells(forecasts, words));
  const name = `what each print takes ${isoDay(new Date())}.csv`;
  downloadBlob(new Blob([csv], { type: 'text/csv;charset=utf-8' }), name);
  return 'A table was saved: a row for each job, in millimetres, bytes, seconds and hours.';
};
