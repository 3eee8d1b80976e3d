/** The shelves: lens sheets, printers and papers that the person fills, kept on this computer. */
import type { ChangeEvent, DragEvent, ReactNode } from 'react';
import { useRef, useState } from 'react';
import type { ShelfName } from '../../../materials/shelves.ts';
import { addNew, putOnShelf } from '../../../studio/keep/edit-shelves.ts';
import { exportShelves, importShelves } from '../../../studio/keep/exchange-shelves.ts';
import { Button, ChoiceField, Notice, Panel } from '../../../ui/index.ts';
import { holdsFiles, useNoStrayDrops } from '../../desk/use-no-stray-drops.ts';
import { useShelves, useStudio, useView } from '../../studio.ts';
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
  const input = useRef<HTMLInputElement>(null);
  const onChosen = (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    if (file !== undefined) void importShelves(studio, file);
    // So that the same file can be chosen again.
    event.target.value = '';
  };
  return (
    <div className={styles['row']}>
      <Button onClick={() => exportShelves(studio)}>Export shelves</Button>
      <Button onClick={() => input.current?.click()}>Import shelves</Button>
      <input
        ref={input}
        type="file"
        accept=".json,application/json"
        aria-label="Import shelves"
        className="unseen"
        tabIndex={-1}
        onChange={onChosen}
      />
    </div>
  );
};

/** There from the start: a region that comes with its words is not read aloud. */
const Told = () => {
  const notice = useShelves((state) => state.notice);
  return (
    <div role="status">
      {notice !== undefined && (
        <Notice kind={notice.kind} title={notice.title}>
          {notice.lines.map((line, i) => (
            <p key={i}>{line}</p>
          ))}
        </Notice>
      )}
    </div>
  );
};

const Shelf = () => {
  const studio = useStudio();
  const shelf = useView((view) => view.openShelf);
  const setView = useView((view) => view.set);
  const last = useShelves((state) => state.past.at(-1));
  const undo = useShelves((state) => state.undo);
  const [open, setOpen] = useState<OpenEntry>();
  const undoButton = useRef<HTMLButtonElement>(null);
  return (
    <>
      <div className={styles['row']}>
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
      </div>
      <Told />
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

/** Takes an exported file that is dragged in. */
const ShelfDrop = ({ children }: { readonly children: ReactNode }) => {
  const studio = useStudio();
  const [over, setOver] = useState(false);
  useNoStrayDrops();
  const onOver = (event: DragEvent) => {
    if (!holdsFiles(event.dataTransfer)) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = 'copy';
    setOver(true);
  };
  const onLeave = (event: DragEvent) => {
    if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
  };
  const onDrop = (event: DragEvent) => {
    if (!holdsFiles(event.dataTransfer)) return;
    event.preventDefault();
    setOver(false);
    const [file] = event.dataTransfer.files;
    if (file !== undefined) void importShelves(studio, file);
  };
  return (
    <div
      className={styles['area']}
      data-drop={over || undefined}
      onDragOver={onOver}
      onDragLeave={onLeave}
      onDrop={onDrop}
    >
      {children}
    </div>
  );
};

export const ShelvesPanel = () => {
  const ready = useShelves((state) => state.ready);
  return (
    <Panel title="Shelves" actions={<FileButtons />}>
      <ShelfDrop>
        <p className={styles['soft']}>
          What you have and what you may buy, kept on this computer beside every job. Everything
          called generic is nominal: confirm with the supplier’s data and prove the pitch.
        </p>
        {ready ? <Shelf /> : <p className={styles['soft']}>The shelves are being fetched …</p>}
      </ShelfDrop>
    </Panel>
  );
};
