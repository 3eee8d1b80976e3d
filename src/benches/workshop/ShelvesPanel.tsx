/** The shelves: lens sheets, printers and papers that the person fills, kept on this computer. */
import { useRef, useState } from 'react';
import { isProfileName } from '../../core/names/paths.ts';
import type { ShelfName } from '../../materials/shelves.ts';
import { addNew, putOnShelf } from '../../studio/keep/edit-shelves.ts';
import { keepProfile } from '../../studio/colour/paper-profile.ts';
import { exportShelves, importShelves } from '../../studio/keep/exchange-shelves.ts';
import { Button, ChoiceField, FileButton, FileDrop, Panel, Prose, Row } from '../../ui/index.ts';
import { ShelfTold } from '../desk/ShelfTold.tsx';
import { useShelves, useStudio, useView } from '../studio.ts';
import type { OpenEntry } from './ShelfList.tsx';
import { ShelfList } from './ShelfList.tsx';
import styles from './shelves.module.css';

const shelfChoices = [
  { value: 'lenses', label: 'Lenses' },
  { value: 'printers', label: 'Printers' },
  { value: 'papers', label: 'Papers' },
] as const satisfies readonly { value: ShelfName; label: string }[];

const putWords = {
  lenses: 'Put this job’s lens on the shelf',
  printers: 'Put this job’s printer on the shelf',
} as const;
const addWords = {
  lenses: 'Add a lens',
  printers: 'Add a printer',
  papers: 'Add a paper',
} as const;

const FileButtons = () => {
  const studio = useStudio();
  return (
    <Row gap="2 3" align="end">
      <Button onClick={() => exportShelves(studio)}>Export shelves</Button>
      <FileButton
        label="Import shelves"
        accept=".json,application/json"
        onFiles={([file]) => void importShelves(studio, file)}
      />
    </Row>
  );
};

interface OpenProps {
  readonly open: OpenEntry | undefined;
  setOpen(open: OpenEntry | undefined): void;
}

const Shelf = ({ open, setOpen }: OpenProps) => {
  const studio = useStudio();
  const shelf = useView((view) => view.openShelf);
  const setView = useView((view) => view.set);
  const last = useShelves((state) => state.past.at(-1));
  const notice = useShelves((state) => state.notice);
  const undo = useShelves((state) => state.undo);
  const undoButton = useRef<HTMLButtonElement>(null);
  return (
    <>
      <Row gap="2 3" align="end">
        <ChoiceField
          label="Shelf"
          choices={shelfChoices}
          value={shelf}
          onChange={(value) => {
            setView({ openShelf: value });
            setOpen(undefined);
          }}
        />
        <Button onClick={() => setOpen({ id: addNew(studio, shelf), isNew: true })}>
          {addWords[shelf]}
        </Button>
        {shelf !== 'papers' && (
          <Button onClick={() => setOpen({ id: putOnShelf(studio, shelf), isNew: true })}>
            {putWords[shelf]}
          </Button>
        )}
        <Button ref={undoButton} look="quiet" off={last === undefined} onClick={undo}>
          {last === undefined ? 'Nothing to undo on the shelves' : `Undo ${last.label}`}
        </Button>
      </Row>
      <ShelfTold notice={notice} />
      <ShelfList
        shelf={shelf}
        open={open}
        onOpen={setOpen}
        // The button that was pressed is gone with its entry.
        onRemoved={() => undoButton.current?.focus()}
      />
    </>
  );
};

/** An exported file can be dragged in, and a printer profile. */
export const ShelvesPanel = () => {
  const studio = useStudio();
  const ready = useShelves((state) => state.ready);
  const shelf = useView((view) => view.openShelf);
  const setView = useView((view) => view.set);
  const [open, setOpen] = useState<OpenEntry>();
  const take = async (file: File) => {
    if (!isProfileName(file.name)) return importShelves(studio, file);
    const kept = await keepProfile(studio, file, shelf === 'papers' ? open?.id : undefined);
    if (kept === undefined) return;
    setView({ openShelf: 'papers' });
    setOpen(kept);
  };
  return (
    <Panel title="Shelves" actions={<FileButtons />}>
      <FileDrop className={styles['area']} onFile={(file) => void take(file)}>
        <Prose>
          What you have and what you may buy, kept on this computer beside every job. Everything
          called generic is nominal: confirm with the supplier’s data and prove the pitch. A printer
          profile (.icc) that is dropped here is kept with its paper.
        </Prose>
        {ready ? (
          <Shelf open={open} setOpen={setOpen} />
        ) : (
          <Prose>The shelves are being fetched …</Prose>
        )}
      </FileDrop>
    </Panel>
  );
};
