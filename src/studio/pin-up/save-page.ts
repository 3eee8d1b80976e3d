/** Makes the page to pin up and saves it as a download. */
import { inFileName } from '../../core/names/in-file-name.ts';
import type { MountSetting } from '../../job/facts/mount/steps.ts';
import type { Job } from '../../job/schema/job.ts';
import { downloadPage, sayLost } from './download-page.ts';
import { pageContent } from './page-content.ts';

/** @returns what to tell the person */
export const savePage = async (job: Job, setting: MountSetting): Promise<string> => {
  const { pagePdf } = await import('./page-pdf.ts');
  const pdf = await pagePdf(pageContent(job, setting), setting.unit);
  const made = downloadPage(pdf, `${inFileName(job.name, 'print')} mounting.pdf`, setting.unit);
  return `${made}. Print it on plain paper; it holds these numbers as they are now.${sayLost(pdf)}`;
};
