/** Takes frames in from a folder while a render writes them. */
import { useEffect, useState } from 'react';
import type { WatchedFolder } from '../../studio/frames/gather.ts';
import { FolderLooks, canWatch, gatherFiles, pickFolder } from '../../studio/frames/gather.ts';
import { receive } from '../../studio/frames/receive.ts';
import { Button, Name, Prose, Row } from '../../ui/index.ts';
import { nameInText } from '../../core/names/shown.ts';
import { useStudio } from '../studio.ts';

const LOOK_EVERY_MS = 2000;

const says = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Looks at the folder while the page is to be seen, one look after another. */
const useWatch = (folder: WatchedFolder | undefined, onLost: () => void): void => {
  const studio = useStudio();
  useEffect(() => {
    if (folder === undefined) return undefined;
    const isInJob = ({ name, size }: File): boolean =>
      studio.document
        .getState()
        .job.frames.some((frame) => frame.name === name && frame.byteLength === size);
    const looks = new FolderLooks(folder);
    let timer: ReturnType<typeof setTimeout> | undefined;
    let over = false;
    const look = async () => {
      if (!document.hidden) {
        const files = await looks.look(isInJob);
        if (!over && files.length > 0)
          await receive(studio, (signal) => gatherFiles(files, signal), { adding: true });
      }
    };
    const next = () => {
      timer = setTimeout(() => {
        look().then(
          () => {
            if (!over) next();
          },
          (error: unknown) => {
            studio.notes.problem(
              `The folder can no longer be read (${says(error)}), so it is not watched any more. Choose it again.`,
              folder.name,
            );
            onLost();
          },
        );
      }, LOOK_EVERY_MS);
    };
    next();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [studio, folder, onLost]);
};

export const WatchFolder = () => {
  const { notes, announce } = useStudio();
  const [folder, setFolder] = useState<WatchedFolder>();
  const [stop] = useState(() => () => setFolder(undefined));
  useWatch(folder, stop);
  if (!canWatch())
    return (
      <Prose>
        This browser cannot watch a folder. Add the folder of frames again at any time: only new
        ones are taken.
      </Prose>
    );
  const choose = () => {
    pickFolder().then(
      (chosen) => {
        if (chosen === undefined) return;
        setFolder(chosen);
        announce(`Watching the folder ${nameInText(chosen.name)}.`);
      },
      (error: unknown) => notes.problem(`The folder could not be opened: ${says(error)}`),
    );
  };
  return (
    <Row gap={2}>
      {folder === undefined ? (
        <Button onClick={choose}>Watch a folder</Button>
      ) : (
        <>
          <span>
            Watching <Name>{folder.name}</Name> while this page is open.
          </span>
          <Button onClick={stop}>Stop watching</Button>
        </>
      )}
    </Row>
  );
};
