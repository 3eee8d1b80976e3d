import { useComing } from './use-coming.ts';

const load = () => import('../../job/words/glossary.ts');

const noneYet = () => undefined;

/** What labels mean. Loaded late: nobody asks before the first view stands. Without it the question marks stay away. */
export const useGlossary = (): ((label: string) => string | undefined) =>
  useComing(load)?.meaningOf ?? noneYet;
