/** Pictures shared with the installed studio by the system: posted as a form, put by, and taken by the page that opens. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright/test';
import { expect, test } from './support/any-visit.ts';
import { field } from './support/page.ts';
import { shrinkDemo } from './support/shrunk-demo.ts';
import { VIEWS, apart, drop, firstVisit, renders } from './support/stranger.ts';

test.use({ serviceWorkers: 'allow' });

/** As the system does it: what is in the manifest says where to, and under which name. */
const share = async (page: Page, paths: readonly string[]): Promise<void> => {
  const files = paths.map((path, at) => ({
    name: `gate_${at + 1}.png`,
    base64: readFileSync(path).toString('base64'),
  }));
  await page.evaluate(async (all) => {
    await navigator.serviceWorker.ready;
    const { href = '' } = document.querySelector<HTMLLinkElement>('link[rel="manifest"]') ?? {};
    const { share_target: target } = (await (await fetch(href)).json()) as {
      share_target: { action: string; params: { files: { name: string }[] } };
    };
    const form = new FormData();
    for (const { name, base64 } of all) {
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      form.append(target.params.files[0]?.name ?? '', new File([bytes], name), name);
    }
    await fetch(new URL(target.action, href), { method: 'POST', body: form });
  }, files);
};

test('frames begin a job of one’s own, and each is taken once; a photo is read', async ({
  page,
}, info) => {
  await shrinkDemo(page, 60);
  await firstVisit(page);
  await share(page, await renders(info));
  await page.reload();
  await expect(field(page, 'Job name')).toHaveValue('gate');
  await expect(page.getByText(`${VIEWS} for ${VIEWS} slots`)).toBeVisible();
  await apart(page, 'gate');
  // At once, with copies still on their way to the disk: whoever shared them does not hold them any more.
  await page.reload();
  await expect(field(page, 'Job name')).toHaveValue('gate');
  await expect(page.getByText(`${VIEWS} for ${VIEWS} slots`)).toBeVisible();
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(page.getByText('missing original')).toHaveCount(0);

  // A single one may be a photo of the print: it is read where such a photo is chosen.
  await expect(page.getByText(/^Preparing frames/)).toHaveCount(0);
  const [path = ''] = await renders(info, 'photo');
  await drop(page, [path]);
  await page.getByRole('button', { name: 'Read it as a photo of the print' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Mend' })).toBeVisible();
  await expect(page.getByRole('img', { name: 'Your photo of the print' })).toBeVisible();
  await expect(page.getByText(`${VIEWS} for ${VIEWS} slots`)).toBeAttached();
});
