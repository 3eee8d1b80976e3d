/** Said before a weave that the browser's disk will hardly hold: not after hours, when it is full. */
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import { sayBytes } from '../../core/units/format.ts';
import { canChooseFile, roomNow } from '../../studio/keep/browser.ts';
import { Notice } from '../../ui/index.ts';
import { useComing } from './use-coming.ts';
import { useView } from '../studio.ts';

/** `dots`: of all that is woven at once. */
export const RoomFor = ({ dots }: { readonly dots: number }) => {
  const fileType = useView((view) => view.fileType);
  const saveTo = useView((view) => view.saveTo);
  const room = useComing(roomNow, dots);
  const freeBytes = room === undefined ? Infinity : Math.max(0, room.quotaBytes - room.usedBytes);
  const wants = dots * sheetFileTypes[fileType].bytesPerDot;
  if (saveTo === 'chosen-file' || wants <= freeBytes) return null;
  return (
    <Notice kind="caution" title="This will hardly find room">
      The file will take some {sayBytes(wants)}, and the browser has {sayBytes(freeBytes)} left for
      the studio. Look whether the size and the dots are meant so; free room under Jobs
      {canChooseFile() && ', or save to a file you choose, on a disk that has it'}.
    </Notice>
  );
};
