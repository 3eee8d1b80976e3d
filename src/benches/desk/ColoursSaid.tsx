/** Beside what is woven: whether its colours are those of the sheet. Nothing for a job in sRGB. */
import { convertedWords, notConvertedWords } from '../../job/words/colour.ts';
import type { FileKind } from '../../state/tasks.ts';
import { Prose } from '../../ui/index.ts';
import { useJob } from '../studio.ts';

const targets: readonly FileKind[] = ['strip', 'wedge', 'lampTarget'];

export const ColoursSaid = ({ kind }: { readonly kind: FileKind }) => {
  const job = useJob();
  if (job.colour === undefined) return null;
  return <Prose>{targets.includes(kind) ? notConvertedWords(job) : convertedWords(job)}</Prose>;
};
