/** A caution that is shown whole once for each job, and stays in its place as a line that opens. */
import type { CautionKind } from '../../job/facts/mount/step.ts';
import { cautionWords } from '../../job/words/cautions.ts';
import { Button, Fold, Notice } from '../../ui/index.ts';
import { useDocument, useView } from '../studio.ts';

/** So many jobs are remembered, the latest of them. */
const MOST = 400;

interface Props {
  readonly bench: string;
  readonly kinds: readonly CautionKind[];
  readonly children?: string;
}

export const CautionOnce = ({ bench, kinds, children }: Props) => {
  const jobId = useDocument((state) => state.jobId);
  const read = useView((view) => view.cautionsRead);
  const set = useView((view) => view.set);
  const key = `${jobId} ${bench}`;
  const title = kinds.map((kind) => cautionWords[kind].of).join(', ');
  const says = (
    <>
      {kinds.map((kind) => (
        <p key={kind}>{cautionWords[kind].say}</p>
      ))}
      {children !== undefined && <p>{children}</p>}
    </>
  );
  return read.includes(key) ? (
    <Fold summary={`Caution: ${title}`}>{says}</Fold>
  ) : (
    <Notice kind="caution" title={title}>
      {says}
      <div>
        <Button onClick={() => set({ cautionsRead: [...read, key].slice(-MOST) })}>
          I have read it
        </Button>
      </div>
    </Notice>
  );
};
