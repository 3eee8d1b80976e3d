/** From the button to the finished files, one a tile. */
import { useState } from 'react';
import { sayBytes, trimmed } from '../../../core/units/format.ts';
import type { WovenFile } from '../../../state/tasks.ts';
import { canChooseFolder } from '../../../studio/keep/browser.ts';
import { weaveTiles } from '../../../studio/weave/tiles.ts';
import { buttonClass, ChoiceField, Name, Notice, Prose } from '../../../ui/index.ts';
import { FileTypeField } from '../../desk/FileTypeField.tsx';
import { HeldInMemory } from '../../desk/HeldInMemory.tsx';
import type { EndedState } from '../../desk/MakeFile.tsx';
import { MakeFile } from '../../desk/MakeFile.tsx';
import { useStudio } from '../../studio.ts';
import styles from './tiles.module.css';

const Files = ({ files }: { readonly files: readonly WovenFile[] }) => (
  <ul className={styles['files']}>
    {files.map(({ name, fileName, byteLength, href }) => (
      <li key={name}>
        {href === undefined ? (
          <Name>{fileName}</Name>
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

const Ended = ({ stage, files, count, stale, seconds, message }: EndedState) => {
  const some = files.length > 0 ? `${files.length} of ${count} tiles are whole and kept.` : '';
  return (
    <div className={styles['part']}>
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
    </div>
  );
};

export const WeaveTiles = () => {
  const studio = useStudio();
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
      <MakeFile
        kind="tiles"
        name="tiles"
        ended={Ended}
        onWeave={() => void weaveTiles(studio, where)}
      />
    </section>
  );
};
