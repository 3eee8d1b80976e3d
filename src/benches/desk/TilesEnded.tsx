/** What became of the tiles: all of them in one go. */
import { sayBytes, trimmed } from '../../core/units/format.ts';
import type { WovenFile } from '../../state/tasks.ts';
import { Fields, Name, Notice, Prose, Stack, buttonClass } from '../../ui/index.ts';
import type { EndedState } from './FileStage.tsx';
import { KeptPart } from './FileStage.tsx';
import styles from './TilesEnded.module.css';

const Files = ({ files }: { readonly files: readonly WovenFile[] }) => (
  <Fields as="ul" least={15} gap={2} className={styles['files']}>
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
  </Fields>
);

export const TilesEnded = (state: EndedState) => {
  const { stage, files, count, stale, seconds, message, begun } = state;
  const some = files.length > 0 ? `${files.length} of ${count} tiles are whole and kept.` : '';
  return (
    <Stack className={styles['ended']}>
      {stage === 'failed' && (
        <Notice kind="problem" title="The tiles were not all woven">
          {`${message ?? ''} ${some}`}
        </Notice>
      )}
      {stage === 'stopped' &&
        (begun === undefined ? (
          <Notice kind="info">Stopped. {some || 'Nothing was kept.'}</Notice>
        ) : (
          <KeptPart thing="tiles" begun={begun} />
        ))}
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
    </Stack>
  );
};
