/** One line under the benches: what this job needs next, and why. It can be folded away, and blocks nothing. */
import type { WayAct, WayStep } from '../../job/facts/way.ts';
import { Button, buttonClass } from '../../ui/index.ts';
import { useView } from '../studio.ts';
import type { Bench } from './benches.ts';
import { asking, useIsAsking } from './use-asking.ts';
import styles from './TheWay.module.css';

interface Props {
  readonly bench: Bench;
  readonly way: WayStep | undefined;
}

const Act = ({ label, goTo }: WayAct) => {
  const set = useView((view) => view.set);
  return goTo === 'ask' ? (
    <Button look="quiet" className={styles['go']} onClick={() => set(asking)}>
      {label}
    </Button>
  ) : (
    <a className={`${buttonClass('quiet')} ${styles['go']}`} href={`#/${goTo}`}>
      {label}
    </a>
  );
};

export const TheWay = ({ bench, way }: Props) => {
  const folded = useView((view) => view.wayFolded);
  const set = useView((view) => view.set);
  const isAsking = useIsAsking();
  // No way to where the person already is.
  const isThere = way?.act?.goTo === (isAsking ? 'ask' : bench.name);
  const act = isThere ? undefined : way?.act;
  return (
    <section className={styles['way']} aria-label="The way">
      {!folded && (
        // Heard when it changes, wherever the person works.
        <p role="status" className={styles['words']}>
          {way !== undefined && (
            <>
              <b>
                {way.act !== undefined && <span className={styles['next']}>Next: </span>}
                {way.says}.
              </b>{' '}
              <span className={styles['why']}>{way.why}</span>
            </>
          )}
        </p>
      )}
      {!folded && act !== undefined && <Act {...act} />}
      <Button
        look="quiet"
        className={styles['fold']}
        aria-expanded={!folded}
        onClick={() => set({ wayFolded: !folded })}
      >
        {folded ? 'Show what is next' : 'Fold away'}
      </Button>
    </section>
  );
};
