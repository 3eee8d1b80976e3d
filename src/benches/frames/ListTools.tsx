import { isInNaturalOrder } from '../../core/frames/order.ts';
import { reverseTold, sortTold, stepTold } from '../../studio/frames/told-edits.ts';
import { Button, Row } from '../../ui/index.ts';
import { useJob, useStudio } from '../studio.ts';
import styles from './frames.module.css';

interface Props {
  readonly chosen: ReadonlySet<string>;
  onRemove(): void;
  onRemoveAll(): void;
}

export const ListTools = ({ chosen, onRemove, onRemoveAll }: Props) => {
  const studio = useStudio();
  const { frames } = useJob();
  const none = chosen.size === 0;
  return (
    <Row gap={2} className={styles['tools']} role="group" aria-label="Order of frames">
      <Button off={frames.length < 2} onClick={() => reverseTold(studio)}>
        Reverse order
      </Button>
      <Button off={isInNaturalOrder(frames)} onClick={() => sortTold(studio)}>
        Sort by name
      </Button>
      <Button off={none} onClick={() => stepTold(studio, chosen, -1)}>
        Move earlier
      </Button>
      <Button off={none} onClick={() => stepTold(studio, chosen, 1)}>
        Move later
      </Button>
      <Button off={none} onClick={onRemove}>
        {chosen.size > 1 ? `Remove ${chosen.size}` : 'Remove'}
      </Button>
      <Button look="quiet" onClick={onRemoveAll}>
        Remove all
      </Button>
    </Row>
  );
};
