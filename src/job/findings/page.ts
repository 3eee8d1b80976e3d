/** Whether the print and what is printed around it fit on the paper. */
import { sheetPapers } from '../../core/sheet/papers.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Finding, Remedy } from './finding.ts';
import type { Job } from '../schema/job.ts';
import { fitsPage, overhangOf, pictureFitsPage, setPage, smallestPaper } from '../facts/page.ts';

const centre: Remedy = {
  label: 'Put the print in the middle',
  undoLabel: 'print’s place',
  edit: (job) => setPage(job, { place: undefined }),
};

const otherPaper = (job: Job): Remedy | undefined => {
  const choice = smallestPaper(job);
  if (choice === undefined) return undefined;
  const name = sheetPapers[choice.paper].label.split(',')[0] as string;
  return {
    label: `Use ${name}${choice.onItsSide ? ' landscape' : ''}`,
    undoLabel: 'paper',
    edit: (current) => setPage(current, { ...choice, place: undefined }),
  };
};

const remedyOf = (job: Job): { remedy: string; action: Remedy } => {
  if (job.page?.place !== undefined && fitsPage(setPage(job, { place: undefined })))
    return { remedy: 'There is room in the middle of the paper.', action: centre };
  const paper = otherPaper(job);
  return paper === undefined
    ? {
        remedy:
          'No paper of the list is large enough: use a roll or an own size, or a smaller print.',
        action: { label: 'Go to Mount', goTo: 'mount', part: 'page' },
      }
    : { remedy: 'Use larger paper, or leave out what is least needed.', action: paper };
};

/** Undefined while the page is off or tiles are on: then this paper is not used. */
export const pageFinding = (job: Job): Finding | undefined => {
  if (job.page?.on !== true || job.tiles?.on === true || fitsPage(job)) return undefined;
  const { pictureMm, allMm } = overhangOf(job);
  if (!pictureFitsPage(job))
    return {
      id: 'page-picture-off-paper',
      severity: 'problem',
      title: 'The print does not fit on its paper',
      figure: `${trimmed(pictureMm, 1)} mm too far`,
      reason:
        'With its bleed it reaches into the printer margin, or past the paper: ' +
        'it would be cut off, or a driver would shrink it and spoil the pitch.',
      ...remedyOf(job),
    };
  return {
    id: 'page-parts-off-paper',
    severity: 'caution',
    title: 'Rails or marks do not fit on the paper',
    figure: `${trimmed(allMm, 1)} mm too far`,
    reason:
      'The picture fits, but some of what is printed around it falls into the printer margin.',
    ...remedyOf(job),
  };
};
