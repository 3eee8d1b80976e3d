/** A stranger on an empty profile, with renders of their own. */
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Page, TestInfo } from 'playwright/test';
import { expect } from 'playwright/test';
import sharp from 'sharp';
import { field, keptStates, saved } from './page.ts';
import { shrinkDemo } from './shrunk-demo.ts';

export const VIEWS = 6;

/** A person's renders, in a folder of theirs: a gate on the terrace, wider than it is high. */
export const renders = async (info: TestInfo, folder = 'terrace gate'): Promise<string[]> =>
  Promise.all(
    Array.from({ length: VIEWS }, async (_, view) => {
      const path = info.outputPath(folder, `gate_${view + 1}.png`);
      mkdirSync(dirname(path), { recursive: true });
      const background = { r: 40 * view, g: 90, b: 200 - 30 * view };
      await sharp({ create: { width: 160, height: 120, channels: 3, background } })
        .png()
        .toFile(path);
      return path;
    }),
  );

/** Files held over the middle of the page. Returns the letting go. */
export const drag = async (page: Page, paths: readonly string[]): Promise<() => Promise<void>> => {
  const session = await page.context().newCDPSession(page);
  const { width, height } = page.viewportSize() ?? { width: 0, height: 0 };
  const data = { items: [], files: [...paths], dragOperationsMask: 1 };
  const send = (type: 'dragEnter' | 'dragOver' | 'drop') =>
    session.send('Input.dispatchDragEvent', { type, x: width / 2, y: height / 2, data });
  await send('dragEnter');
  await send('dragOver');
  return async () => {
    await send('drop');
  };
};

/** A drop from the system, in the middle of the page. */
export const drop = async (page: Page, paths: readonly string[]): Promise<void> => {
  const letGo = await drag(page, paths);
  await letGo();
};

/** The demo's frames come when the test says so. */
export const holdDemo = async (page: Page): Promise<() => void> => {
  let letCome: () => void = () => undefined;
  const held = new Promise<void>((resolve) => {
    letCome = resolve;
  });
  const context = page.context();
  await shrinkDemo(context, 60);
  // Asked before the one above, which was set earlier; a page's own would come before both, and hold nothing.
  await context.route(/glasshouse_\d\d[^/]*\.png$/, async (route) => {
    await held;
    await route.fallback();
  });
  return letCome;
};

export const slowed = async (page: Page, rate: number): Promise<void> => {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
};

/** On a bench, with the demo's numbers on the job sheet. */
export const firstVisit = async (page: Page, bench = 'weave'): Promise<void> => {
  await page.goto(`./#/${bench}`);
  await expect(field(page, 'Job name')).toHaveValue('The old glasshouse');
};

/** Two presses more, from wherever the frames were dropped on. Checks the sheet's name and size. */
export const weaveOwn = async (page: Page, name: string): Promise<void> => {
  await expect(field(page, 'Job name')).toHaveValue(name);
  // On a phone the job sheet is folded.
  await expect(page.getByText(`${VIEWS} for ${VIEWS} slots`)).toBeAttached();
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes, fileName } = await saved(page, 'Save sheet');
  expect(fileName).toMatch(new RegExp(`^${name} .*\\.png$`));
  // 203.2 mm across at 720 dpi, and of the frames' shape: 4 to 3.
  expect(await sharp(bytes, { limitInputPixels: false }).metadata()).toMatchObject({
    width: 5760,
    height: 4320,
  });
};

export const jobsOnDisk = async (page: Page) =>
  new Map((await keptStates(page)).map(({ job, jobId }) => [jobId, job] as const));

/** The demo is kept once, with its own frames alone, and so is the person's job with theirs. */
export const apart = (page: Page, own: string) =>
  expect
    .poll(async () =>
      [...(await jobsOnDisk(page)).values()]
        .map(
          ({ name, frames }) =>
            `${name}: ${frames.map((one) => one.name.slice(0, 5))[0]} ${frames.length}`,
        )
        .sort(),
    )
    .toEqual([`The old glasshouse: glass 12`, `${own}: gate_ ${VIEWS}`].sort());
