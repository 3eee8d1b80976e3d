/** One shelf: its entries, and what can be done with each. */
import { useId } from 'react';
import { factsOf } from '../../materials/facts.ts';
import type { Entry, EntryOf, ShelfName } from '../../materials/shelves.ts';
import { standingOf } from '../../materials/use-in-job.ts';
import { bringStarters, duplicate, layIntoJob, takeOff } from '../../studio/keep/edit-shelves.ts';
import { Button, Name, Prose, Stack } from '../../ui/index.ts';
import { useJob, useShelves, useStudio, useUnits, useView } from '../studio.ts';
import { EntryEditor } from './EntryEditor.tsx';
import styles from './shelves.module.css';

export interface OpenEntry {
  readonly id: string;
  readonly isNew: boolean;
}

interface ItemProps<Shelf extends ShelfName> {
  readonly shelf: Shelf;
  readonly entry: EntryOf[Shelf];
  readonly open: OpenEntry | undefined;
  onOpen(open: OpenEntry | undefined): void;
  onRemoved(): void;
}

const marks = {
  'in-use': 'in use',
  differs: 'in use, with other numbers on the job sheet',
  idle: '',
};

const Item = <Shelf extends ShelfName>(props: ItemProps<Shelf>) => {
  const { shelf, entry, open, onOpen, onRemoved } = props;
  const studio = useStudio();
  const id = useId();
  const job = useJob();
  const units = useUnits();
  const mark = useView((view) => view.currencyMark);
  const standing = standingOf(job, shelf, entry);
  const isOpen = open?.id === entry.id;
  return (
    <li className={styles['entry']} data-in-use={standing !== 'idle' || undefined}>
      <div className={styles['what']}>
        <h3 id={id}>
          <Name>{entry.name}</Name>
          {standing !== 'idle' && <span className={styles['mark']}>{marks[standing]}</span>}
        </h3>
        <p>{factsOf(shelf, entry, { units, mark })}</p>
        {entry.note !== '' && !isOpen && <Prose>{entry.note}</Prose>}
      </div>
      <div className={styles['buttons']}>
        <Button
          aria-describedby={id}
          off={standing === 'in-use'}
          onClick={() => studio.shelves.getState().tell(layIntoJob(studio, shelf, entry))}
        >
          Use for this job
        </Button>
        <Button
          look="quiet"
          aria-describedby={id}
          aria-expanded={isOpen}
          onClick={() => onOpen(isOpen ? undefined : { id: entry.id, isNew: false })}
        >
          {isOpen ? 'Close' : 'Edit'}
        </Button>
        <Button
          look="quiet"
          aria-describedby={id}
          onClick={() => onOpen({ id: duplicate(studio, shelf, entry), isNew: true })}
        >
          Copy
        </Button>
        <Button
          look="quiet"
          aria-describedby={id}
          onClick={() => {
            takeOff(studio, shelf, entry.id);
            onRemoved();
          }}
        >
          Remove
        </Button>
      </div>
      {isOpen && <EntryEditor shelf={shelf} entry={entry} isNew={open.isNew} />}
    </li>
  );
};

const emptyWords = {
  lenses:
    'No lens stands here. Put the one on the job sheet on the shelf, or bring the generic ones back.',
  printers:
    'No printer stands here. Put the one on the job sheet on the shelf, or bring the generic ones back.',
  papers: 'No paper lies here. Add yours, or bring the standard sizes back.',
} as const;

interface Props {
  readonly shelf: ShelfName;
  readonly open: OpenEntry | undefined;
  onOpen(open: OpenEntry | undefined): void;
  onRemoved(): void;
}

export const ShelfList = ({ shelf, ...rest }: Props) => {
  const studio = useStudio();
  const entries: readonly Entry[] = useShelves((state) => state.shelves[shelf]);
  if (entries.length === 0)
    return (
      <div className={styles['empty']}>
        <p>{emptyWords[shelf]}</p>
        <Button onClick={() => bringStarters(studio)}>Bring the starters back</Button>
      </div>
    );
  return (
    <Stack as="ul" gap={0}>
      {entries.map((entry) => (
        <Item key={entry.id} shelf={shelf} entry={entry} {...rest} />
      ))}
    </Stack>
  );
};
