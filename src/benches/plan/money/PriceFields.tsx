/** What the job is made of, by its shelf entries, and what each costs. A price is kept on the shelf. */
import type { ReactNode } from 'react';
import { plainMeasure } from '../../../core/units/measure.ts';
import type { EntryOf, ShelfName } from '../../../job/shelf.ts';
import { useShelves, useView } from '../../../state/hooks.ts';
import { BlankField, Button, SelectField } from '../../../ui/index.ts';
import { editEntry, layIntoJob, putOnShelf } from '../shelves/edit-shelves.ts';
import { BlankMeasure } from '../shelves/EntryField.tsx';
import { shelvesStore } from '../../../state/shelves.ts';
import styles from './money.module.css';
import { useCosts } from './use-costs.ts';

const usePriceMeasure = () =>
  plainMeasure(
    0.1,
    2,
    useView((view) => view.currencyMark),
  );

interface MaterialProps {
  readonly title: string;
  readonly name: string | undefined;
  /** Said, with what to do, where no entry stands for it. */
  readonly none: string;
  readonly children: ReactNode;
}

const Material = ({ title, name, none, children }: MaterialProps) => (
  <div role="group" aria-label={title} className={styles['material']}>
    <h3>{title}</h3>
    <p className={styles['soft']}>{name ?? none}</p>
    {children}
  </div>
);

const Paper = ({ paper }: { readonly paper: EntryOf['papers'] | undefined }) => {
  const papers = useShelves((state) => state.shelves.papers);
  const priceMeasure = usePriceMeasure();
  const choices = [
    ...(paper === undefined ? [{ value: '', label: 'None chosen' }] : []),
    ...papers.map(({ id, name }) => ({ value: id, label: name })),
  ];
  return (
    <Material
      title="Paper"
      name={paper?.name}
      none="The paper set for the strip stands on no shelf: choose one, or add it below."
    >
      <SelectField
        label="Paper from the shelf"
        choices={choices}
        value={paper?.id ?? ''}
        onChange={(id) => {
          const entry = papers.find((one) => one.id === id);
          if (entry !== undefined) shelvesStore.getState().tell(layIntoJob('papers', entry));
        }}
      />
      {paper !== undefined && (
        <BlankMeasure
          label="Price of a sheet of paper"
          value={paper.price}
          measure={priceMeasure}
          onCommit={(price) => editEntry('papers', paper.id, `price of ${paper.name}`, { price })}
        />
      )}
    </Material>
  );
};

const OnShelf = ({ shelf }: { readonly shelf: Exclude<ShelfName, 'papers'> }) => (
  <Button onClick={() => void putOnShelf(shelf)}>
    Put this job’s {shelf === 'lenses' ? 'lens' : 'printer'} on the shelf
  </Button>
);

export const PriceFields = () => {
  const { lens, printer, paper } = useCosts().chosen;
  const mark = useView((view) => view.currencyMark);
  const setView = useView((view) => view.set);
  const priceMeasure = usePriceMeasure();
  return (
    <>
      <div className={styles['materials']}>
        <Material
          title="Lens sheet"
          name={lens?.name}
          none="No lens on the shelves has this job’s numbers."
        >
          {lens === undefined ? (
            <OnShelf shelf="lenses" />
          ) : (
            <BlankMeasure
              label="Price of a lens sheet"
              value={lens.price}
              measure={priceMeasure}
              onCommit={(price) => editEntry('lenses', lens.id, `price of ${lens.name}`, { price })}
            />
          )}
        </Material>
        <Paper paper={paper} />
        <Material
          title="Ink"
          name={printer?.name}
          none="No printer on the shelves has this job’s grid."
        >
          {printer === undefined ? (
            <OnShelf shelf="printers" />
          ) : (
            <BlankMeasure
              label="Price of ink for a square metre"
              value={printer.inkPerSquareMetre}
              measure={priceMeasure}
              onCommit={(inkPerSquareMetre) =>
                editEntry('printers', printer.id, `ink of ${printer.name}`, { inkPerSquareMetre })
              }
            />
          )}
        </Material>
      </div>
      <div className={styles['fields']}>
        <BlankField
          label="Currency mark"
          value={mark}
          hint="Stands behind prices. Empty: bare numbers."
          onCommit={(currencyMark) => {
            if (currencyMark.length > 8) return 'At most 8 letters.';
            setView({ currencyMark });
            return undefined;
          }}
        />
      </div>
    </>
  );
};
