/** Makes the page to pin up and saves it as a download. */
import { inFileName } from '../../core/names/in-file-name.ts';
import type { MountSetting } from '../../job/facts/mount/steps.ts';
import type { Job } from '../../job/schema/job.ts';
import { downloadBlob } from '../keep/download.ts';
import { pageContent } from './page-content.ts';

/** @returns what to tell the person */
export const savePage = async (job: Job, setting: MountSetting): Promise<string> => {
  const { pagePdf } = await import('./page-pdf.ts');
  const { bytes, lost } = await pagePdf(pageContent(job, setting), setting.unit);
  const pdf = new Blob([bytes], { type: 'application/pdf' });
  downloadBlob(pdf, `${inFileName(job.name, 'print')} mounting.pdf`);
  const paper = setting.unit === 'mm' ? 'A4' : 'Letter';
  const made = `One page of ${paper} was made. Print it on plain paper; it holds these numbers as they are now.`;
  if (lost.length === 0) return made;
  return `${made} Its plain type lacks ${lost.join(' ')}: “?” stands there instead.`;
};
