/** How much room the studio takes, whether the browser promises to keep it, and what can be freed. */
import { useEffect, useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import { sayBytes } from '../../../core/units/format.ts';
import type { KeptJobEntry, Promised, Room, ScratchRoom } from '../../../studio/keep/browser.ts';
import { askToKeep, promisedNow, roomNow, scratchRoom } from '../../../studio/keep/browser.ts';
import { endListed, endParallax, endPrepared, endSheets } from '../../../studio/keep/job-list.ts';
import { ownBytes } from '../../../studio/keep/say.ts';
import type { Studio } from '../../../studio/studio.ts';
import { Button, Notice, Row, Stack } from '../../../ui/index.ts';
import { useDocument, useStudio, useWork } from '../../studio.ts';
import styles from './job-list.module.css';
import type { KeptJobs } from './use-kept-jobs.ts';

interface Facts {
  readonly room: Room | undefined;
  readonly promised: Promised;
  readonly scratch: ScratchRoom;
}

const useFacts = () => {
  const { preparing } = useStudio();
  const changes = useWork((work) => work.jobsChanged);
  const [facts, setFacts] = useState<Facts>();
  useEffect(() => {
    let gone = false;
    void Promise.all([roomNow(), promisedNow(), scratchRoom(preparing.inUse())]).then(
      ([room, promised, scratch]) => {
        if (!gone) setFacts({ room, promised, scratch });
      },
    );
    return () => {
      gone = true;
    };
  }, [preparing, changes]);
  const [asked, setAsked] = useState(0);
  const ask = async () => {
    const promised = await askToKeep();
    setFacts((was) => was && { ...was, promised });
    setAsked((times) => times + 1);
  };
  return { facts, asked, ask };
};

const promises: Readonly<Record<Promised, string>> = {
  kept: 'The browser has promised to keep all this until you remove it.',
  'not-promised':
    'The browser keeps all this as long as the disk has room, and may clear it when the disk runs short.',
  unsaid: 'The browser does not say whether it clears all this when the disk runs short.',
};

const refused =
  'The browser was asked, and does not promise it. Some do once the studio is installed or bookmarked. Save your jobs as files for safe keeping.';

interface Freeable {
  readonly key: string;
  readonly what: string;
  readonly bytes: number;
  /** What is lost by it. */
  readonly cost: string;
  /** For what cannot be had again: asked once more. */
  readonly forGood: boolean;
  free(studio: Studio): Promise<void>;
}

const ofJob = (entry: KeptJobEntry, all: readonly KeptJobEntry[]): Freeable => ({
  key: entry.id,
  what:
    entry.deletedAt === undefined
      ? `Job “${nameInText(entry.name)}”`
      : `Deleted job “${nameInText(entry.name)}”`,
  bytes: ownBytes(entry, all),
  cost: 'The job and the frames that no other job uses, for good.',
  forGood: true,
  free: (studio) => endListed(studio, entry),
});

const freeables = (kept: KeptJobs, openId: string, scratch: ScratchRoom): Freeable[] => {
  const all = [...kept.jobs, ...kept.bin];
  return [
    ...(scratch.alone
      ? [
          {
            key: 'prepared',
            what: 'Prepared frames no longer used',
            bytes: scratch.preparedBytes,
            cost: 'Nothing: they are made again when needed.',
            forGood: false,
            free: endPrepared,
          },
          {
            key: 'sheets',
            what: 'Finished sheets and strips',
            bytes: scratch.sheetBytes,
            cost: 'Files you have not saved yet have to be woven again.',
            forGood: false,
            free: endSheets,
          },
        ]
      : []),
    {
      key: 'parallax',
      what: 'The last measured parallax',
      bytes: scratch.parallaxBytes,
      cost: 'It is measured again when needed.',
      forGood: false,
      free: endParallax,
    },
    ...[...kept.bin, ...kept.jobs.filter(({ id }) => id !== openId)]
      .map((entry) => ofJob(entry, all))
      .sort((a, b) => b.bytes - a.bytes),
  ].filter(({ bytes, forGood }) => bytes > 0 || forGood);
};

interface RowProps {
  readonly one: Freeable;
  onFree(): void;
}

const FreeRow = ({ one, onFree }: RowProps) => {
  const [asked, setAsked] = useState(false);
  return (
    <li className={styles['free']}>
      <div className={styles['words']}>
        <p>
          <b>{one.what}</b> ·{' '}
          {one.bytes === 0 ? 'its frames serve other jobs too' : sayBytes(one.bytes)}
        </p>
        <p className={styles['facts']}>{one.cost}</p>
      </div>
      {asked ? (
        <div className={styles['actions']}>
          <Button aria-label={`Yes, delete for good: ${one.what}`} onClick={onFree}>
            Yes, delete for good
          </Button>
          <Button look="quiet" onClick={() => setAsked(false)}>
            Leave it
          </Button>
        </div>
      ) : (
        <Button
          aria-label={`Free: ${one.what}`}
          onClick={() => (one.forGood ? setAsked(true) : onFree())}
        >
          Free
        </Button>
      )}
    </li>
  );
};

interface Props {
  readonly kept: KeptJobs;
  onFree(work: () => Promise<void>): void;
}

export const RoomPart = ({ kept, onFree }: Props) => {
  const studio = useStudio();
  const { facts, asked, ask } = useFacts();
  const openId = useDocument((state) => state.jobId);
  const noRoomFor = useWork((work) => work.noRoomFor);
  if (facts === undefined) return <p>Looking at the disk …</p>;
  const list = freeables(kept, openId, facts.scratch);
  return (
    <>
      {noRoomFor.length > 0 && (
        <Notice kind="problem" title="There was no room for">
          <p>{noRoomFor.join(', ')}</p>
        </Notice>
      )}
      <p>
        {facts.room === undefined
          ? 'This browser does not say how much room it gives the studio.'
          : `Used: ${sayBytes(facts.room.usedBytes)} of ${sayBytes(facts.room.quotaBytes)} that the browser gives the studio, by its own estimate.`}
      </p>
      <Row as="p" gap="2 3">
        {promises[facts.promised]}
        {facts.promised === 'not-promised' && (
          <Button onClick={() => void ask()}>Ask the browser to keep it</Button>
        )}
      </Row>
      <p aria-live="polite" className={styles['facts']}>
        {/* The same words twice are two events to those who listen. */}
        {asked > 0 && facts.promised !== 'kept' && `${refused}${'\u00a0'.repeat(asked % 2)}`}
      </p>
      <h3>What can be freed</h3>
      {list.length === 0 ? (
        <p className={styles['facts']}>Nothing but the open job is here.</p>
      ) : (
        <Stack as="ul" gap={2}>
          {list.map((one) => (
            <FreeRow key={one.key} one={one} onFree={() => onFree(() => one.free(studio))} />
          ))}
        </Stack>
      )}
      {!facts.scratch.alone && (
        <p className={styles['facts']}>
          Prepared frames and finished sheets are not listed: another tab of the studio may need
          them.
        </p>
      )}
    </>
  );
};
