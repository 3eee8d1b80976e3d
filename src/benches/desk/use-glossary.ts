import { useEffect, useState } from 'react';

type MeaningOf = (label: string) => string | undefined;

const noneYet: MeaningOf = () => undefined;

/** What labels mean. Loaded late: nobody asks before the first view stands. */
export const useGlossary = (): MeaningOf => {
  const [meaningOf, setMeaningOf] = useState<MeaningOf>(() => noneYet);
  useEffect(() => {
    import('../../job/words/glossary.ts').then(
      (glossary) => setMeaningOf(() => glossary.meaningOf),
      // The question marks stay away; whatever else cannot be loaded says so.
      () => undefined,
    );
  }, []);
  return meaningOf;
};
