/** The log as one HTML page with its photos, which any browser opens and prints. */
import { nameInText, shownName } from '../../core/names/shown.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import type { FrameStore } from '../../files/frame-store.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Trial } from '../../job/schema/trial.ts';
import { historyFindings, trialsOf } from '../../job/facts/trials.ts';
import { factsOf } from '../../job/facts/trial-rows.ts';
import type { Studio } from '../studio.ts';
import { downloadBlob } from './download.ts';
import { asDataAddress, plain } from './html.ts';

const photoOf = async (frames: FrameStore, { photoId }: Trial): Promise<string> => {
  if (photoId === undefined) return '';
  const address = await frames
    .open(photoId)
    .then(asDataAddress)
    .catch(() => '');
  return address.startsWith('data:image/') ? `<img alt="" src="${plain(address)}">` : '';
};

const trialPart = (trial: Trial, number: number, photo: string, units: LengthUnit): string => {
  const rows = factsOf(trial, units)
    .filter(({ value }) => value !== '')
    .map(
      ({ name, value }) => `<tr><th scope="row">${plain(name)}</th><td>${plain(value)}</td></tr>`,
    );
  return `<section><h2>Trial ${number}</h2>${photo}<table>${rows.join('')}</table></section>`;
};

const style =
  'body{font:16px/1.5 sans-serif;max-width:50rem;margin:2rem auto;padding:0 1rem}' +
  'section{break-inside:avoid;margin-block:2rem}img{max-width:16rem;float:right}' +
  'th{text-align:left;font-weight:400;color:#555;padding-right:1rem;vertical-align:top}';

/** @returns a whole HTML document. */
const logPage = async (frames: FrameStore, job: Job, units: LengthUnit): Promise<string> => {
  const history = historyFindings(job).map(
    ({ title, figure, remedy }) =>
      `<li><strong>${plain(title)}</strong> (${plain(figure)}). ${plain(remedy)}</li>`,
  );
  const parts = await Promise.all(
    trialsOf(job).map(async (trial, i) =>
      trialPart(trial, i + 1, await photoOf(frames, trial), units),
    ),
  );
  return (
    `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>${plain(nameInText(job.name))}: trials</title>` +
    `<style>${style}</style></head><body><h1><bdi>${plain(shownName(job.name))}</bdi>: trials</h1>` +
    `${history.length === 0 ? '' : `<ul>${history.join('')}</ul>`}${parts.join('')}</body></html>`
  );
};

/** Saves the page as a download. @returns what to tell the person */
export const saveLog = async (
  { disk: { frames } }: Studio,
  job: Job,
  units: LengthUnit,
): Promise<string> => {
  const page = await logPage(frames, job, units);
  downloadBlob(new Blob([page], { type: 'text/html' }), 'trials.html');
  return 'The log was saved as trials.html.';
};
