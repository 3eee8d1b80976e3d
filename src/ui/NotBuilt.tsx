import type { ReactNode } from 'react';
import { Panel } from './Panel.tsx';
import styles from './NotBuilt.module.css';

interface Props {
  /** What the bench will do, in a sentence or two. */
  readonly will: string;
  /** What the person can do about it now. */
  readonly meanwhile: string;
  readonly children?: ReactNode;
}

/** A bench that has a place in the row but no work in it yet, and says so. */
export const NotBuilt = ({ will, meanwhile, children }: Props) => (
  <>
    <Panel title="This bench is not built yet">
      <div className={styles['text']}>
        <p>{will}</p>
        <p>{meanwhile}</p>
      </div>
    </Panel>
    {children}
  </>
);
