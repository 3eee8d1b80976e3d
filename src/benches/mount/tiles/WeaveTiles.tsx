/** From the button to the finished files, one a tile. */
import { useState } from 'react';
import { sayBytes, trimmed } from '../../../core/units/format.ts';
import type { FileState, WovenFile } from '../../../state/tasks.ts';
import { canChooseFolder } from '../../../studio/keep/browser.ts';
import { weaveTiles } from '../../../studio/weave/tiles.ts';
import {
  Button,
  ChoiceField,
  HeldFocus,
  Notice,
  ProgressBar,
  Prose,
  buttonClass,
} from '../../../ui/index.ts';
import { FileTypeField } from '../../desk/FileTypeField.tsx';
import { HeldInMemory } from '../../desk/HeldInMemory.tsx';
import { useStudio, useTask } from '../../studio.ts';
import styles from './tiles.module.css';

const Running = ({ tiles }: { readonly tiles: Extract<FileState, { stage: 'weaving' }> }) => {
  const studio = useStudio();
  return (
    <div className={styles['running']}>
      <ProgressBar
        label="Weaving tiles"
        done={tiles.rowsDone}
        total={tiles.rows}
        of="rows"
        secondsLeft={tiles.secondsLeft}
      />
      <Prose>
        Tile {tiles.place + 1} of {tiles.count}.
      </Prose>
      <Button onClick={() => studio.tasks.stop('tiles')}>Stop</Button>
    </div>
  );
};

const Files = ({ files }: { readonly files: readonly WovenFile[] }) => (
  <ul className={styles['files']}>
    {files.map(({ name, fileName, byteLength, href }) => (
      <li key={name}>
        {href === undefined ? (
          <span>{fileName}</span>
        ) : (
          <a className={buttonClass('plain')} href={href} download={fileName}>
            Save {name}
          </a>
        )}{' '}
        <Prose as="span">{sayBytes(byteLength)}</Prose>
      </li>
    ))}
  </ul>
);

const Ended = ({ tiles }: { readonly tiles: FileState }) => {
  if (tiles.stage === 'idle' || tiles.stage === 'weaving') return null;
  const { stage, files, count, stale, seconds, message } = tiles;
  const some = files.length > 0 ? `${files.length} of ${count} tiles are whole and kept.` : '';
  return (
    <>
      {stage === 'failed' && (
        <Notice kind="problem" title="The tiles were not all woven">
          {`${message ?? ''} ${some}`}
        </Notice>
      )}
      {stage === 'stopped' && <Notice kind="info">Stopped. {some || 'Nothing was kept.'}</Notice>}
      {stale && files.length > 0 && (
        <Notice kind="caution" title="The job has changed since">
          These tiles show the job as it was. Weave all of them again before you print: tiles of
          different jobs do not fit each other.
        </Notice>
      )}
      {stage === 'woven' && (
        <Prose>
          {count} tiles woven in {trimmed(seconds, 1)} s.
        </Prose>
      )}
      <Files files={files} />
    </>
  );
};

export const WeaveTiles = () => {
  const studio = useStudio();
  const tiles = useTask('tiles');
  const [where, setWhere] = useState<'here' | 'folder'>('here');
  return (
    <section className={styles['part']}>
      <h3>Weave the tiles</h3>
      <div className={styles['choices']}>
        <FileTypeField />
        {canChooseFolder() && (
          <ChoiceField
            label="Save tiles to"
            choices={[
              { value: 'here', label: 'Here, then download' },
              { value: 'folder', label: 'A folder I choose' },
            ]}
            value={where}
            onChange={(value) => setWhere(value)}
          />
        )}
      </div>
      <HeldInMemory toChosenFile={where === 'folder'} />
      <HeldFocus stage={tiles.stage}>
        {tiles.stage === 'weaving' ? (
          <Running tiles={tiles} />
        ) : (
          <div>
            <Button
              look={tiles.stage === 'woven' && !tiles.stale ? 'plain' : 'primary'}
              onClick={() => void weaveTiles(studio, where)}
            >
              Weave tiles
            </Button>
          </div>
        )}
        {/* There from the start: a region that comes with its words is not read aloud. */}
        <div role="status" className={styles['part']}>
          <Ended tiles={tiles} />
        </div>
      </HeldFocus>
    </section>
  );
};
