/** What the studio thinks will go wrong, beside whichever bench is open. */
import type { Finding, Remedy } from '../../job/findings/finding.ts';
import { Button, buttonClass, focusIfLost, NoticeMark, Prose, ScrollBox } from '../../ui/index.ts';
import { useChange, useDocument } from '../studio.ts';
import { BenchLink } from './BenchLink.tsx';
import type { Bench } from './benches.ts';
import styles from './FindingsPanel.module.css';
import { ALL_PARTS, usePartShown } from './use-parts.ts';

const words = { problem: 'Problem', caution: 'Caution', note: 'Note' } as const;

const RemedyButton = ({ action }: { readonly action: Remedy }) => {
  const change = useChange();
  return 'goTo' in action ? (
    <BenchLink {...action} className={buttonClass()} />
  ) : (
    <Button
      onClick={() => {
        change(action.undoLabel, action.edit);
        // The finding it belongs to is mostly gone with that.
        focusIfLost(() => document.getElementById('findings'));
      }}
    >
      {action.label}
    </Button>
  );
};

interface ItemProps {
  readonly finding: Finding;
  readonly bench: Bench | undefined;
}

const Item = ({ finding, bench }: ItemProps) => {
  const { action, otherAction, severity } = finding;
  const [shown] = usePartShown(bench?.name ?? '');
  // No way to where the person already is.
  const leadsHere = (way: Remedy) =>
    'goTo' in way &&
    way.goTo === bench?.name &&
    (way.part === undefined || way.part === shown || shown === ALL_PARTS);
  return (
    <li className={`${styles['finding']} ${styles[severity]}`}>
      <p className={styles['severity']}>
        <NoticeMark kind={severity === 'note' ? 'info' : severity} />
        {words[severity]}
      </p>
      <h3>{finding.title}</h3>
      {finding.figure !== '' && <p className={styles['figure']}>{finding.figure}</p>}
      <p>{finding.reason}</p>
      {finding.remedy !== '' && <p className={styles['remedy']}>{finding.remedy}</p>}
      {[action, otherAction].map(
        (way) => way && !leadsHere(way) && <RemedyButton key={way.label} action={way} />,
      )}
    </li>
  );
};

interface Props {
  readonly found: readonly Finding[];
  readonly bench?: Bench;
}

export const FindingsPanel = ({ found, bench }: Props) => {
  const ready = useDocument((state) => state.ready);
  return (
    <aside className={styles['panel']} aria-labelledby="findings">
      <div className={styles['head']}>
        <h2 id="findings" tabIndex={-1}>
          Findings
        </h2>
        <p role="status" className={styles['count']}>
          {ready && (found.length === 0 ? 'none' : found.length)}
          <span className="unseen"> found</span>
        </p>
      </div>
      <ScrollBox className={styles['scroll']}>
        {found.length === 0 ? (
          <Prose large>
            {ready
              ? 'Nothing stands in the way that the studio can see.'
              : 'The demo is being laid in …'}
          </Prose>
        ) : (
          <ul>
            {found.map((finding) => (
              <Item key={finding.id} finding={finding} bench={bench} />
            ))}
          </ul>
        )}
      </ScrollBox>
    </aside>
  );
};

/**
 * Where the panel lies below the bench: at the foot of the window while the bench scrolls, with the worst of what
 * is found. It leads there.
 */
export const FindingsJump = ({ found }: { readonly found: readonly Finding[] }) => {
  const [worst] = found;
  if (worst === undefined) return null;
  const { severity, title } = worst;
  return (
    <button
      type="button"
      className={`${styles['jump']} ${styles[severity]}`}
      onClick={() => {
        const heading = document.getElementById('findings');
        heading?.scrollIntoView();
        heading?.focus({ preventScroll: true });
      }}
    >
      <NoticeMark kind={severity === 'note' ? 'info' : severity} />
      <b>{found.length === 1 ? '1 finding below' : `${found.length} findings below`}</b>
      <span className={styles['worst']}>
        <span className="unseen">{words[severity]}: </span>
        {title}
      </span>
    </button>
  );
};
