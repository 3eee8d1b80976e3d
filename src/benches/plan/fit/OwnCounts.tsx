/** Lens pitches and printer grids that the person adds to the table. */
import type { KeyboardEvent } from 'react';
import { useId, useState } from 'react';
import { LENS_COUNTS, PRINTER_GRIDS, withOwn } from '../../../core/plan/pairing.ts';
import { trimmed } from '../../../core/units/format.ts';
import { readDensity, readPitch } from '../../../core/units/parse.ts';
import { mmToLpi } from '../../../core/units/units.ts';
import { useView } from '../../studio.ts';
import { Button, Columns, FieldBox, Stack } from '../../../ui/index.ts';
import styles from './pairs.module.css';

type Read =
  { readonly ok: true; readonly count: number } | { readonly ok: false; readonly message: string };

/** As wide as the job sheet allows. */
const MOST = 24;
const readLens = (text: string): Read => {
  const read = readPitch(text, 'lpi');
  if (!read.ok) return read;
  const count = Number(trimmed(mmToLpi(read.value), 3));
  return read.value >= 0.05 && read.value <= 5
    ? { ok: true, count }
    : { ok: false, message: 'Lens pitch must be from 5.08 to 508 LPI (5 to 0.05 mm).' };
};
const readPrinter = (text: string): Read => {
  const read = readDensity(text);
  if (!read.ok) return read;
  return read.value >= 50 && read.value <= 10000
    ? { ok: true, count: Number(trimmed(read.value, 2)) }
    : { ok: false, message: 'Printer dots must be from 50 to 10000 dpi.' };
};

interface AddProps {
  readonly label: string;
  readonly unit: string;
  readonly hint: string;
  readonly counts: readonly number[];
  /** Those the table has without being asked. */
  readonly listed: readonly number[];
  read(text: string): Read;
  onCounts(counts: number[]): void;
}

/** Enter adds; what cannot be added stays in the field with its reason. */
const useAdding = ({ counts, listed, read, onCounts }: AddProps) => {
  const [draft, setDraft] = useState<{ text: string; error?: string }>({ text: '' });
  const add = () => {
    const { text } = draft;
    if (text.trim() === '') return setDraft({ text: '' });
    const refuse = (error: string) => setDraft({ text, error });
    const found = read(text);
    if (!found.ok) return refuse(found.message);
    const before = withOwn(listed, counts);
    if (withOwn(before, [found.count]).length === before.length)
      return refuse(`${trimmed(found.count, 3)} is in the table already.`);
    if (counts.length >= MOST) return refuse(`At most ${MOST} of your own: take one out first.`);
    onCounts(withOwn(counts, [found.count]));
    return setDraft({ text: '' });
  };
  return { draft, setDraft, add };
};

const AddCount = (props: AddProps) => {
  const { label, unit, counts } = props;
  const id = useId();
  const { draft, setDraft, add } = useAdding(props);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') add();
    else if (event.key === 'Escape') setDraft({ text: '' });
    else return;
    event.preventDefault();
  };
  return (
    <Stack gap={2}>
      <div className={styles['addLine']}>
        <FieldBox
          id={id}
          label={label}
          text={draft.text}
          unit={unit}
          isDraft={draft.text !== ''}
          error={draft.error}
          hint={props.hint}
          onText={(text) => setDraft({ text })}
          onLeave={() => undefined}
          onKeyDown={onKeyDown}
        />
        <Button onClick={add} aria-label={`Add: ${label}`}>
          Add
        </Button>
      </div>
      {counts.length > 0 && (
        <ul className={styles['own']} aria-label={`Added, ${unit}`}>
          {counts.map((count) => (
            <li key={count}>
              {trimmed(count, 3)} {unit}
              <Button
                look="quiet"
                aria-label={`Take out ${trimmed(count, 3)} ${unit}`}
                onClick={() => props.onCounts(counts.filter((other) => other !== count))}
              >
                Take out
              </Button>
            </li>
          ))}
        </ul>
      )}
    </Stack>
  );
};

export const OwnCounts = () => {
  const lensCounts = useView((view) => view.ownLensCounts);
  const printerGrids = useView((view) => view.ownPrinterGrids);
  const setView = useView((view) => view.set);
  return (
    <Columns least={16} gap="3 5">
      <AddCount
        label="Another lens pitch"
        unit="LPI"
        hint="From a supplier’s list: 55, 0.45 mm"
        counts={lensCounts}
        listed={LENS_COUNTS}
        read={readLens}
        onCounts={(ownLensCounts) => setView({ ownLensCounts })}
      />
      <AddCount
        label="Another printer"
        unit="dpi"
        hint="Dpi at which it takes its data"
        counts={printerGrids}
        listed={PRINTER_GRIDS}
        read={readPrinter}
        onCounts={(ownPrinterGrids) => setView({ ownPrinterGrids })}
      />
    </Columns>
  );
};
