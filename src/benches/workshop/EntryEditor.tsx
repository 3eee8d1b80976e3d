/** The fields of one entry, each committed by itself as on the job sheet. */
import { useEffect, useRef } from 'react';
import { nameInText } from '../../core/names/shown.ts';
import {
  densityMeasure,
  lengthMeasure,
  pitchMeasure,
  plainMeasure,
} from '../../core/units/measure.ts';
import type { EntryChange, EntryOf, ShelfName } from '../../materials/shelves.ts';
import { editEntry } from '../../studio/keep/edit-shelves.ts';
import { BlankField } from '../../ui/index.ts';
import type { NumberRow } from '../desk/NumberFields.tsx';
import { NumberFields } from '../desk/NumberFields.tsx';
import { useStudio, useUnits, useView } from '../studio.ts';
import { PaperProfile } from './PaperProfile.tsx';
import { NoteField } from './NoteField.tsx';
import styles from './shelves.module.css';

interface Rows {
  readonly lenses: readonly NumberRow<EntryOf['lenses']>[];
  readonly printers: readonly NumberRow<EntryOf['printers']>[];
  readonly papers: readonly NumberRow<EntryOf['papers']>[];
}

/** @param hasInks of a paper: its profile is CMYK */
const useRows = (hasInks: boolean): Rows => {
  const units = useUnits();
  const pitch = pitchMeasure(useView((view) => view.pitchUnit));
  const mark = useView((view) => view.currencyMark);
  const [size, fine, margin] = [
    lengthMeasure(units),
    lengthMeasure(units, 0.01, 0.001),
    lengthMeasure(units, 0.5, 0.0625),
  ];
  const price = plainMeasure(0.1, 2, mark);
  return {
    lenses: [
      ['pitchMm', 'Pitch', pitch],
      ['thicknessMm', 'Thickness', fine, 'Crest to back.'],
      ['index', 'Index', plainMeasure(0.001, 4)],
      ['radiusMm?', 'Radius of a rib', fine, 'Empty: taken to be in focus.'],
      [
        'supplierAngleDeg?',
        'Supplier’s viewing angle',
        plainMeasure(1, 1, '°'),
        'Empty: not stated.',
      ],
      ['widthMm', 'Width across the ribs', size, 'Of the sheet as bought.'],
      ['heightMm', 'Height along the ribs', size],
      ['price?', 'Price of a sheet', price],
    ],
    printers: [
      ['acrossDpi', 'Along the carriage', densityMeasure],
      ['alongDpi', 'Along the feed', densityMeasure],
      ['marginMm?', 'Printer margin', margin, 'What the printer cannot reach.'],
      ['inkPerSquareMetre?', 'Ink for a square metre', price],
    ],
    papers: [
      ['widthMm', 'Width', size],
      ['heightMm', 'Height', size],
      ['thicknessMm?', 'Thickness', fine],
      ...(hasInks
        ? ([
            [
              'inkLimit?',
              'Total ink limit',
              plainMeasure(10, 0, '%'),
              'Of the maker. Empty: not known.',
            ],
          ] as const)
        : []),
      ['price?', 'Price of a sheet', price],
    ],
  };
};

interface OwnRows {
  readonly of: EntryOf['lenses'];
  readonly rows: Rows['lenses'];
}

/** What undo calls a change: the label's first word, but for these. */
const called: Readonly<Record<string, string>> = {
  'supplier’s viewing angle': 'angle',
  'printer margin': 'printer margin',
  'along the carriage': 'grid',
  'along the feed': 'grid',
};

interface Props<Shelf extends ShelfName> {
  readonly shelf: Shelf;
  readonly entry: EntryOf[Shelf];
  /** Just put there: its name is chosen, to be typed over. */
  readonly isNew: boolean;
}

export const EntryEditor = <Shelf extends ShelfName>({ shelf, entry, isNew }: Props<Shelf>) => {
  const studio = useStudio();
  const paper = shelf === 'papers' ? (entry as EntryOf['papers']) : undefined;
  const rows = useRows(paper?.profile?.space === 'CMYK');
  const group = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isNew) group.current?.querySelector('input')?.select();
  }, [isNew]);
  const edit = (label: string, change: object) => {
    const what = called[label] ?? label.split(' ')[0] ?? label;
    const fields = change as EntryChange<Shelf>;
    return editEntry(studio, shelf, entry.id, `${what} of ${nameInText(entry.name)}`, fields);
  };
  // The rows of a shelf are for its own entries; the compiler cannot pair the two.
  const own = { of: entry, rows: rows[shelf] } as unknown as OwnRows;
  return (
    <div
      ref={group}
      role="group"
      aria-label={`Edit ${nameInText(entry.name)}`}
      className={styles['editor']}
    >
      <BlankField label="Name" value={entry.name} onCommit={(name) => edit('name', { name })} />
      <NumberFields {...own} edit={edit} />
      {paper !== undefined && <PaperProfile paper={paper} />}
      <NoteField key={entry.id} value={entry.note} onCommit={(note) => edit('note', { note })} />
    </div>
  );
};
