import { useEffect } from 'react';
import { useStore } from 'zustand';
import { nameInText } from '../../../core/names/shown.ts';
import type { Standing } from '../../../studio/keep/job-file/marks.ts';
import { useStudio } from '../../studio.ts';
import styles from './job-file.module.css';

const standingWords = (standing: Standing): string => {
  if (standing.kind === 'never') return 'Not saved to a file yet';
  return standing.kind === 'saved'
    ? `Saved to ${nameInText(standing.fileName)}`
    : `Changed since it was saved to ${nameInText(standing.fileName)}`;
};

/**
 * A mark beside the job sheet's name: whether the job lies in a file as it is. Each has a shape of its own,
 * so that it is told without colour too.
 */
export const SavedMark = () => {
  const { jobFileMarks } = useStudio();
  const standing = useStore(jobFileMarks.store, (state) => state.standing);
  useEffect(() => jobFileMarks.start(), [jobFileMarks]);
  const words = standingWords(standing);
  return (
    <span
      role="img"
      aria-label={words}
      title={words}
      className={styles['mark']}
      data-standing={standing.kind}
    />
  );
};
