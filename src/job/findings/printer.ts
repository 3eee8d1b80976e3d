/** What the printer's finer grid could do for the ribs, where the page is kept from turning. */
import { trimmed } from '../../core/units/format.ts';
import { setPrinter } from '../edits/consequences.ts';
import { gridOf } from '../facts/printer.ts';
import type { Job } from '../schema/job.ts';
import { edgeWords } from '../words/printer.ts';
import type { Finding } from './finding.ts';

/** Also tells whoever kept the job before it knew the printer's axes that its page would be turned today. */
export const printerFinding = (job: Job): Finding | undefined => {
  const { acrossDpi, alongDpi, fedFirst } = gridOf(job);
  if (acrossDpi >= alongDpi) return undefined;
  return {
    id: 'finer-grid-turned',
    severity: 'note',
    title: 'The printer’s finer grid lies along the ribs',
    figure: `${trimmed(acrossDpi, 2)} dpi across them, ${trimmed(alongDpi, 2)} dpi with the page turned by a quarter`,
    reason: `Fed with ${fedFirst === 'top' ? 'its top edge' : edgeWords.side} first, the page has the coarser dots where the view slots lie side by side.`,
    remedy:
      'Turn the page, if paper and printer allow it, and prove the pitch that way: it holds along one axis of the printer.',
    action: {
      label: 'Turn the page',
      undoLabel: 'fed first',
      edit: (now) => setPrinter(now, { fedFirst: undefined }),
    },
  };
};
