import { basename } from 'node:path';
import type { BrowserContext, Page } from 'playwright/test';
import sharp from 'sharp';
import { at } from '../../tools/house.mjs';

/** A first visit then lays the glasshouse in with its own frames, narrower: `widthPx` instead of 600. */
export const shrinkDemo = async (where: Page | BrowserContext, widthPx: number): Promise<void> => {
  await where.route(/glasshouse_\d\d[^/]*\.png$/, async (route) => {
    const [name = ''] = /glasshouse_\d\d/.exec(basename(route.request().url())) ?? [];
    const frame = sharp(at('demo-scenes/glasshouse', `${name}.png`)).resize(widthPx);
    await route.fulfill({ contentType: 'image/png', body: await frame.png().toBuffer() });
  });
};
