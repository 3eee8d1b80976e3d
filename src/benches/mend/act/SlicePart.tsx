/** A slice of the print, to test the cure on a scrap of lens before a sheet is spent. */
import { useJob, useWork } from '../../../state/hooks.ts';
import { Button, HeldFocus, Notice, ProgressBar, buttonClass } from '../../../ui/index.ts';
import { stopSlice, weaveSlice } from './slice-run.ts';
import styles from '../mend.module.css';

const Outcome = () => {
  const slice = useWork((work) => work.slice);
  if (slice.stage === 'stopped')
    return <Notice kind="info">Stopped. Nothing was kept of the unfinished slice.</Notice>;
  if (slice.stage === 'failed')
    return (
      <Notice kind="problem" title="The slice was not woven">
        {slice.message}
      </Notice>
    );
  if (slice.stage !== 'woven') return null;
  return slice.href === undefined ? (
    <p>
      Saved as <strong>{slice.fileName}</strong>.
    </p>
  ) : (
    <a className={buttonClass('primary')} href={slice.href} download={slice.fileName}>
      Save slice
    </a>
  );
};

export const SlicePart = () => {
  const job = useJob();
  const slice = useWork((work) => work.slice);
  return (
    <div className={styles['slice']}>
      <h3>Test it on a scrap first</h3>
      <p className={styles['soft']}>
        A slice of the print at its full width, as the job stands now. Print it the same way round,
        lay a scrap of lens on it and look before you spend a sheet.
      </p>
      <HeldFocus stage={slice.stage}>
        {slice.stage === 'weaving' ? (
          <div className={styles['actions']}>
            <ProgressBar
              label="Weaving the slice"
              done={slice.rowsDone}
              total={slice.rows}
              of="rows"
              secondsLeft={slice.secondsLeft}
            />
            <Button onClick={stopSlice}>Stop</Button>
          </div>
        ) : (
          <div>
            {' '}
            <Button off={job.frames.length === 0} onClick={() => void weaveSlice()}>
              Weave a slice
            </Button>
          </div>
        )}
        <div role="status">
          <Outcome />
        </div>
      </HeldFocus>
    </div>
  );
};
