import type { Bench } from './benches.ts';
import { benches } from './benches.ts';
import styles from './BenchNav.module.css';

/** The benches along a steel rule, in the order of the craft, reachable in any; the Workshop at its far end. */
export const BenchNav = ({ current }: { readonly current: Bench }) => (
  <nav aria-label="Benches" className={styles['rule']}>
    <ol>
      {benches.map((bench) => (
        <li key={bench.name} data-beside={bench.beside}>
          <a href={`#/${bench.name}`} aria-current={bench === current ? 'page' : undefined}>
            {bench.label}
          </a>
        </li>
      ))}
    </ol>
  </nav>
);
