/** The fields of one entry, each committed by itself as on the job sheet. */
import { useEffect, useRef } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import {
  densityMeasure,
  lengthMeasure,
  pitchMeasure,
  plainMeasure,
} from '../../../core/units/measure.ts';
import type { EntryChange, EntryOf, ShelfName } from '../../../materials/shelves.ts';
import { BlankMeasure, BlankField, MeasureField } from '../../../ui/index.ts';
import { editEntry } from '../../../studio/keep/edit-shelves.ts';
import { useStudio, useView } from '../../studio.ts';
import { NoteField } from './NoteField.tsx';
import styles from './shelves.module.css';

type FieldsProps<Shelf extends ShelfName> = {
  readonly entry: EntryOf[Shelf];
  change(label: string, fields: EntryChange<Shelf>): string | undefined;
};

const usePriceMeasure = () =>
  plainMeasure(
    0.1,
    2,
    useView((view) => view.currencyMark),
  );

const LensEntryFields = ({ entry, change }: FieldsProps<'lenses'>) => {
  const units = useView((view) => view.units);
  const pitchUnit = useView((view) => view.pitchUnit);
  const priceMeasure = usePriceMeasure();
  return (
    <>
      <MeasureField
        label="Pitch"
        value={entry.pitchMm}
        measure={pitchMeasure(pitchUnit)}
        onCommit={(pitchMm) => change('pitch', { pitchMm })}
      />
      <MeasureField
        label="Thickness"
        value={entry.thicknessMm}
        measure={lengthMeasure(units, 0.01, 0.001)}
        hint="Crest to back."
        onCommit={(thicknessMm) => change('thickness', { thicknessMm })}
      />
      <MeasureField
        label="Index"
        value={entry.index}
        measure={plainMeasure(0.001, 4)}
        onCommit={(index) => change('index', { index })}
      />
      <BlankMeasure
        label="Radius of a rib"
        value={entry.radiusMm}
        measure={lengthMeasure(units, 0.01, 0.001)}
        hint="Empty: taken to be in focus."
        onCommit={(radiusMm) => change('radius', { radiusMm })}
      />
      <BlankMeasure
        label="Supplier’s viewing angle"
        value={entry.supplierAngleDeg}
        measure={plainMeasure(1, 1, '°')}
        hint="Empty: not stated."
        onCommit={(supplierAngleDeg) => change('angle', { supplierAngleDeg })}
      />
      <MeasureField
        label="Width across the ribs"
        value={entry.widthMm}
        measure={lengthMeasure(units)}
        hint="Of the sheet as bought."
        onCommit={(widthMm) => change('width', { widthMm })}
      />
      <MeasureField
        label="Height along the ribs"
        value={entry.heightMm}
        measure={lengthMeasure(units)}
        onCommit={(heightMm) => change('height', { heightMm })}
      />
      <BlankMeasure
        label="Price of a sheet"
        value={entry.price}
        measure={priceMeasure}
        onCommit={(price) => change('price', { price })}
      />
    </>
  );
};

const PrinterEntryFields = ({ entry, change }: FieldsProps<'printers'>) => {
  const units = useView((view) => view.units);
  const priceMeasure = usePriceMeasure();
  return (
    <>
      <MeasureField
        label="Grid across"
        value={entry.acrossDpi}
        measure={densityMeasure}
        hint="The ribs."
        onCommit={(acrossDpi) => change('grid', { acrossDpi })}
      />
      <MeasureField
        label="Grid along"
        value={entry.alongDpi}
        measure={densityMeasure}
        onCommit={(alongDpi) => change('grid', { alongDpi })}
      />
      <BlankMeasure
        label="Printer margin"
        value={entry.marginMm}
        measure={lengthMeasure(units, 0.5, 0.0625)}
        hint="What the printer cannot reach."
        onCommit={(marginMm) => change('printer margin', { marginMm })}
      />
      <BlankMeasure
        label="Ink for a square metre"
        value={entry.inkPerSquareMetre}
        measure={priceMeasure}
        onCommit={(inkPerSquareMetre) => change('ink', { inkPerSquareMetre })}
      />
    </>
  );
};

const PaperEntryFields = ({ entry, change }: FieldsProps<'papers'>) => {
  const units = useView((view) => view.units);
  const priceMeasure = usePriceMeasure();
  return (
    <>
      <MeasureField
        label="Width"
        value={entry.widthMm}
        measure={lengthMeasure(units)}
        onCommit={(widthMm) => change('width', { widthMm })}
      />
      <MeasureField
        label="Height"
        value={entry.heightMm}
        measure={lengthMeasure(units)}
        onCommit={(heightMm) => change('height', { heightMm })}
      />
      <BlankMeasure
        label="Thickness"
        value={entry.thicknessMm}
        measure={lengthMeasure(units, 0.01, 0.001)}
        onCommit={(thicknessMm) => change('thickness', { thicknessMm })}
      />
      <BlankMeasure
        label="Price of a sheet"
        value={entry.price}
        measure={priceMeasure}
        onCommit={(price) => change('price', { price })}
      />
    </>
  );
};

interface Props<Shelf extends ShelfName> {
  readonly shelf: Shelf;
  readonly entry: EntryOf[Shelf];
  /** Just put there: its name is chosen, to be typed over. */
  readonly isNew: boolean;
}

export const EntryEditor = <Shelf extends ShelfName>({ shelf, entry, isNew }: Props<Shelf>) => {
  const studio = useStudio();
  const group = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isNew) group.current?.querySelector('input')?.select();
  }, [isNew]);
  const change = (label: string, fields: EntryChange<Shelf>) =>
    editEntry(studio, shelf, entry.id, `${label} of ${nameInText(entry.name)}`, fields);
  const fields = { entry, change } as unknown;
  return (
    <div
      ref={group}
      role="group"
      aria-label={`Edit ${nameInText(entry.name)}`}
      className={styles['editor']}
    >
      <BlankField
        label="Name"
        value={entry.name}
        onCommit={(name) => change('name', { name } as EntryChange<Shelf>)}
      />
      {shelf === 'lenses' && <LensEntryFields {...(fields as FieldsProps<'lenses'>)} />}
      {shelf === 'printers' && <PrinterEntryFields {...(fields as FieldsProps<'printers'>)} />}
      {shelf === 'papers' && <PaperEntryFields {...(fields as FieldsProps<'papers'>)} />}
      <NoteField
        key={entry.id}
        value={entry.note}
        onCommit={(note) => change('note', { note } as EntryChange<Shelf>)}
      />
    </div>
  );
};
