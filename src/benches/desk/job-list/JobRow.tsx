import { useCallback, useRef, useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import type { KeptJobEntry } from '../../../studio/keep/browser.ts';
import { sayFrames, sayLens, sayWhen } from '../../../studio/keep/say.ts';
import { Button, Name, TextField } from '../../../ui/index.ts';
import { useAddress } from '../use-address.ts';
import { useStudio, useUnits } from '../../studio.ts';
import styles from './job-list.module.css';

const JobPicture = ({ id }: { readonly id: string | undefined }) => {
  const { frames } = useStudio().disk;
  const picture = useAddress(
    useCallback(
      async () => (id === undefined ? undefined : frames.openThumbnail(id)),
      [frames, id],
    ),
  );
  return (
    <div className={styles['picture']}>
      {picture !== undefined && <img src={picture} alt="" draggable={false} />}
    </div>
  );
};

interface Props {
  readonly entry: KeptJobEntry;
  readonly isOpen: boolean;
  onOpen(): void;
  onRename(name: string): void;
  onCopy(): void;
  onDelete(): void;
}

export const JobRow = ({ entry, isOpen, onOpen, onRename, onCopy, onDelete }: Props) => {
  const [renaming, setRenaming] = useState(false);
  const renameButton = useRef<HTMLButtonElement>(null);
  const units = useUnits();
  const { name } = entry;
  return (
    <li className={styles['row']} aria-current={isOpen || undefined}>
      <JobPicture id={entry.pictureId} />
      <div className={styles['words']}>
        {renaming ? (
          <TextField
            label={`New name of ${nameInText(name)}`}
            labelUnseen
            value={name}
            maxLength={200}
            atOnce
            onCommit={(next) => {
              setRenaming(false);
              onRename(next);
            }}
            onEnd={() => {
              setRenaming(false);
              renameButton.current?.focus();
            }}
          />
        ) : (
          <h3>
            <Name>{name}</Name>
          </h3>
        )}
        <p className={styles['facts']}>
          {isOpen ? 'Open now · ' : ''}
          {entry.demo === undefined
            ? `changed ${sayWhen(entry.changedAt)}`
            : 'a demo, to look at: a change makes a copy of your own'}
        </p>
        <p className={styles['facts']}>
          {sayFrames(entry)} · {sayLens(entry, units)}
        </p>
      </div>
      <div className={styles['actions']}>
        <Button
          look={isOpen ? 'quiet' : 'plain'}
          aria-label={isOpen ? `Go on with ${nameInText(name)}` : `Open ${nameInText(name)}`}
          onClick={onOpen}
        >
          {isOpen ? 'Go on' : 'Open'}
        </Button>
        <Button
          ref={renameButton}
          look="quiet"
          aria-label={`Rename ${nameInText(name)}`}
          aria-expanded={renaming}
          onClick={() => setRenaming(!renaming)}
        >
          Rename
        </Button>
        <Button look="quiet" aria-label={`Make a copy of ${nameInText(name)}`} onClick={onCopy}>
          Make a copy
        </Button>
        <Button look="quiet" aria-label={`Delete ${nameInText(name)}`} onClick={onDelete}>
          Delete
        </Button>
      </div>
    </li>
  );
};
