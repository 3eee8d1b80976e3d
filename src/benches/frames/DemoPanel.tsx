import { demos, openDemo } from '../../studio/frames/demos.ts';
import { Button, Panel, Prose } from '../../ui/index.ts';
import { useStudio, useWork } from '../studio.ts';
import styles from './frames.module.css';

/** Demo prints to learn on. Opening one over work is a change like any other. */
export const DemoPanel = () => {
  const studio = useStudio();
  const busy = useWork((work) => work.arriving !== undefined);
  return (
    <Panel title="Open a demo">
      <Prose>A demo takes the place of the job that is open; undo brings that back.</Prose>
      <ul className={styles['demos']}>
        {demos.map(({ name, title, description }) => (
          <li key={name}>
            <h3>{title}</h3>
            <p>{description}</p>
            <Button
              aria-label={`Open ${title}`}
              off={busy}
              onClick={() => void openDemo(studio, name)}
            >
              Open
            </Button>
          </li>
        ))}
      </ul>
    </Panel>
  );
};
