/** What the job is made of, by its shelf entries, and what each costs. A price is kept on the shelf. */
import type { ReactNode } from 'react';
import { useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import type { Entry, EntryOf, ShelfName } from '../../../materials/shelves.ts';
import { findEntry } from '../../../materials/shelves.ts';
import { standingOf } from '../../../materials/use-in-job.ts';
import type { ShelfNotice } from '../../../state/shelves.ts';
import { BlankMeasure, Button, Notice, Prose, SelectField } from '../../../ui/index.ts';
import { editEntry, layIntoJob, putOnShelf } from '../../../studio/keep/edit-shelves.ts';
import { useJob, useShelves, useStudio, useView } from '../../studio.ts';
import styles from './money.module.css';
import { useCosts } from './use-costs.ts';

const usePriceMeasure = () =>
  plainMeasure(
    0.1,
    4,
    useView((view) => view.currencyMark),
  );

interface MaterialProps<Shelf extends ShelfName> {
  readonly label: string;
  readonly shelf: Shelf;
  readonly entry: EntryOf[Shelf] | undefined;
  /** Chosen from the list, and so taken into the job: what followed. */
  onTaken(notice: ShelfNotice): void;
  /** The price, or what to do where no entry stands for it. */
  readonly children: ReactNode;
}

const Material = <Shelf extends ShelfName>(props: MaterialProps<Shelf>) => {
  const { label, shelf, entry, onTaken, children } = props;
  const studio = useStudio();
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  const entries: readonly Entry[] = shelves[shelf];
  const differs = entry !== undefined && standingOf(job, shelf, entry) === 'differs';
  return (
    <div className={styles['material']}>
      <SelectField
        label={label}
        choices={[
          ...(entry === undefined ? [{ value: '', label: 'None with this job’s numbers' }] : []),
          ...entries.map(({ id, name }) => ({ value: id, label: nameInText(name) })),
        ]}
        value={entry?.id ?? ''}
        onChange={(id) => {
          const taken = findEntry(shelves, shelf, id);
          if (taken !== undefined) onTaken(layIntoJob(studio, shelf, taken));
        }}
      />
      {differs && (
        <Prose>The job sheet has other numbers by now; money is reckoned with this one.</Prose>
      )}
      {children}
    </div>
  );
};

const OnShelf = ({ shelf }: { readonly shelf: Exclude<ShelfName, 'papers'> }) => {
  const studio = useStudio();
  return (
    <Button onClick={() => void putOnShelf(studio, shelf)}>
      Put this job’s {shelf === 'lenses' ? 'lens' : 'printer'} on the shelf
    </Button>
  );
};

interface Taking {
  onTaken(notice: ShelfNotice): void;
}

const Lens = ({ onTaken }: Taking) => {
  const { lens } = useCosts().chosen;
  const studio = useStudio();
  const measure = usePriceMeasure();
  return (
    <Material label="Lens from the shelf" shelf="lenses" entry={lens} onTaken={onTaken}>
      {lens === undefined ? (
        <OnShelf shelf="lenses" />
      ) : (
        <BlankMeasure
          label="Price of a lens sheet"
          value={lens.price}
          measure={measure}
          onCommit={(price) =>
            editEntry(studio, 'lenses', lens.id, `price of ${nameInText(lens.name)}`, { price })
          }
        />
      )}
    </Material>
  );
};

const Paper = ({ onTaken }: Taking) => {
  const { paper } = useCosts().chosen;
  const studio = useStudio();
  const measure = usePriceMeasure();
  return (
    <Material label="Paper from the shelf" shelf="papers" entry={paper} onTaken={onTaken}>
      {paper === undefined ? (
        <Prose>Choose one, or add yours below.</Prose>
      ) : (
        <BlankMeasure
          label="Price of a sheet of paper"
          value={paper.price}
          measure={measure}
          onCommit={(price) =>
            editEntry(studio, 'papers', paper.id, `price of ${nameInText(paper.name)}`, { price })
          }
        />
      )}
    </Material>
  );
};

const Printer = ({ onTaken }: Taking) => {
  const { printer } = useCosts().chosen;
  const studio = useStudio();
  const measure = usePriceMeasure();
  return (
    <Material label="Printer from the shelf" shelf="printers" entry={printer} onTaken={onTaken}>
      {printer === undefined ? (
        <OnShelf shelf="printers" />
      ) : (
        <BlankMeasure
          label="Price of ink for a square metre"
          value={printer.inkPerSquareMetre}
          measure={measure}
          onCommit={(inkPerSquareMetre) =>
            editEntry(studio, 'printers', printer.id, `ink of ${nameInText(printer.name)}`, {
              inkPerSquareMetre,
            })
          }
        />
      )}
    </Material>
  );
};

export const PriceFields = () => {
  const [notice, setNotice] = useState<ShelfNotice>();
  return (
    <>
      <div className={styles['fields']}>
        <Lens onTaken={setNotice} />
        <Paper onTaken={setNotice} />
        <Printer onTaken={setNotice} />
      </div>
      {/* There from the start: a region that comes with its words is not read aloud. */}
      <div role="status">
        {notice !== undefined && (
          <Notice kind={notice.kind} title={notice.title}>
            {notice.lines.map((line, i) => (
              <p key={i}>{line}</p>
            ))}
          </Notice>
        )}
      </div>
    </>
  );
};
