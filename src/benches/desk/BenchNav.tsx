import { useId } from 'react';
import type { BenchMark, BenchMarks } from '../../job/facts/way.ts';
import type { Bench } from './benches.ts';
import { benches } from './benches.ts';
import styles from './BenchNav.module.css';

const words: Readonly<Record<BenchMark, string>> = {
  done: 'Done for this job.',
  next: 'Needed next.',
  unused: 'Not used by this kind of print.',
};

interface Props {
  readonly current: Bench;
  readonly marks: BenchMarks;
}

/**
 * The benches along a steel rule, in the order of the craft, reachable in any, each with a mark of what the job
 * needs of it; the Workshop at its far end.
 */
export const BenchNav = ({ current, marks }: Props) => {
  const id = useId();
  return (
    <nav aria-label="Benches" className={styles['rule']}>
      <ol>
        {benches.map((bench) => {
          const { name, label, beside } = bench;
          const mark = marks[name];
          return (
            <li key={name} data-beside={beside} data-mark={mark}>
              <a
                href={`#/${name}`}
                aria-current={bench === current ? 'page' : undefined}
                aria-describedby={mark && `${id}-${name}`}
                title={mark && words[mark]}
              >
                {label}
              </a>
              {mark !== undefined && (
                <span id={`${id}-${name}`} hidden>
                  {words[mark]}
                </span>
              )}
            </li>
          );
        })}
      </ol>
    </nav>
  );
};
