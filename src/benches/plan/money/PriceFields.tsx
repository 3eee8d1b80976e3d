/** What the job is made of, by its shelf entries, and what each costs. A price is kept on the shelf. */
import { useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import type { Entry } from '../../../materials/shelves.ts';
import { findEntry } from '../../../materials/shelves.ts';
import { standingOf } from '../../../materials/use-in-job.ts';
import type { ShelfNotice } from '../../../state/shelves.ts';
import { BlankMeasure, Button, Fields, Prose, SelectField, Stack } from '../../../ui/index.ts';
import { editEntry, layIntoJob, putOnShelf } from '../../../studio/keep/edit-shelves.ts';
import { ShelfTold } from '../../desk/ShelfTold.tsx';
import { useJob, useShelves, useStudio, useView } from '../../studio.ts';
import { useCosts } from './use-costs.ts';

const usePriceMeasure = () =>
  plainMeasure(
    0.1,
    4,
    useView((view) => view.currencyMark),
  );

/** A shelf, the field of its entries that holds the price, and what undo calls a change of that. */
const materials = [
  {
    shelf: 'lenses',
    label: 'Lens from the shelf',
    priceLabel: 'Price of a lens sheet',
    field: 'price',
    called: 'price',
  },
  {
    shelf: 'papers',
    label: 'Paper from the shelf',
    priceLabel: 'Price of a sheet of paper',
    field: 'price',
    called: 'price',
  },
  {
    shelf: 'printers',
    label: 'Printer from the shelf',
    priceLabel: 'Price of ink for a square metre',
    field: 'inkPerSquareMetre',
    called: 'ink',
  },
] as const;

type Material = (typeof materials)[number];

const NoEntry = ({ shelf }: Pick<Material, 'shelf'>) => {
  const studio = useStudio();
  if (shelf === 'papers') return <Prose>Choose one, or add yours in the Workshop.</Prose>;
  return (
    <Button onClick={() => void putOnShelf(studio, shelf)}>
      Put this job’s {shelf === 'lenses' ? 'lens' : 'printer'} on the shelf
    </Button>
  );
};

interface MaterialProps {
  readonly material: Material;
  /** Chosen from the list, and so taken into the job: what followed. */
  onTaken(notice: ShelfNotice): void;
}

const MaterialField = ({ material, onTaken }: MaterialProps) => {
  const { shelf, label, priceLabel, field, called } = material;
  const studio = useStudio();
  const job = useJob();
  const measure = usePriceMeasure();
  const shelves = useShelves((state) => state.shelves);
  const { lens, paper, printer } = useCosts().chosen;
  const entry = { lenses: lens, papers: paper, printers: printer }[shelf];
  const entries: readonly Entry[] = shelves[shelf];
  return (
    <Stack gap={2}>
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
      {entry !== undefined && standingOf(job, shelf, entry) === 'differs' && (
        <Prose>The job sheet has other numbers by now; costs are computed with this one.</Prose>
      )}
      {entry === undefined ? (
        <NoEntry shelf={shelf} />
      ) : (
        <BlankMeasure
          label={priceLabel}
          value={(entry as { readonly [Name in typeof field]?: number })[field]}
          measure={measure}
          onCommit={(price) =>
            editEntry(studio, shelf, entry.id, `${called} of ${nameInText(entry.name)}`, {
              [field]: price,
            })
          }
        />
      )}
    </Stack>
  );
};

export const PriceFields = () => {
  const [notice, setNotice] = useState<ShelfNotice>();
  return (
    <>
      <Fields least={12}>
        {materials.map((material) => (
          <MaterialField key={material.shelf} material={material} onTaken={setNotice} />
        ))}
      </Fields>
      <ShelfTold notice={notice} />
    </>
  );
};
