/** Frames that were made, at any later time: their pictures, and over them, where they were filled. */
import { useState } from 'react';
import { thirdsOf } from '../../../core/frames/synth/filled-places.ts';
import { nameInText } from '../../../core/names/shown.ts';
import { sayInvented, sayWhere } from '../../../job/facts/made.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { Columns, Row, SelectField, Stack } from '../../../ui/index.ts';
import { frameChoices } from '../../../job/words/frames.ts';
import { useThumbnail, useView } from '../../studio.ts';
import { FilledOverlay, ShowFilled } from './FilledOverlay.tsx';
import styles from './synth.module.css';
import { useFilled, useMadePicture } from './use-made.ts';

/** How much of the frame was filled and where, without the picture. */
const saidOf = ({ made }: Frame, filled: ReturnType<typeof useFilled>, shown: boolean): string => {
  const invented = made?.invented ?? 0;
  if (filled === 'coming') return `${capital(sayInvented(invented))}. Looking up where …`;
  if (filled.here === undefined)
    return `Where this frame was filled was not kept; the share is ${shareOf(invented)}.`;
  const thirds = thirdsOf(filled.here);
  if (thirds === undefined) return 'Nothing in this frame was filled.';
  const how = shown ? ', laid over in stripes of magenta and black' : '';
  return `${capital(sayInvented(invented))}${how}. ${sayWhere(thirds)}`;
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const shareOf = (invented: number): string =>
  invented === 0 ? '0 %' : sayInvented(invented).replace(/ filled$/, '');

interface Props {
  readonly job: Job;
  readonly made: readonly Frame[];
  readonly frame: Frame;
  onChoose(id: string): void;
}

const MadeFrame = ({ job, made, frame, onChoose }: Props) => {
  const filled = useFilled(frame);
  const showFilled = useView((view) => view.showFilled);
  const small = useThumbnail(frame);
  const picture = useMadePicture(frame) ?? small;
  const here = filled === 'coming' ? undefined : filled.here;
  return (
    <Columns
      as="section"
      least={16}
      gap={4}
      className={styles['made']}
      aria-labelledby="made-frames"
    >
      <Stack>
        <h3 id="made-frames">What was filled in frames that were made</h3>
        <SelectField
          label="Made frame"
          value={frame.id}
          choices={frameChoices(job, made)}
          onChange={onChoose}
        />
        <Row gap="2 4">
          <ShowFilled off={filled !== 'coming' && here === undefined} />
        </Row>
      </Stack>
      <Stack as="figure" gap={2}>
        <div className={styles['stack']} style={{ aspectRatio: frame.widthPx / frame.heightPx }}>
          {picture !== undefined && (
            <img src={picture} alt={`${nameInText(frame.name)}, as it was made`} />
          )}
          {showFilled && here !== undefined && <FilledOverlay places={here} />}
        </div>
        <figcaption>{saidOf(frame, filled, showFilled)}</figcaption>
      </Stack>
    </Columns>
  );
};

export const MadeFrames = ({ job }: { readonly job: Job }) => {
  const [wanted, setWanted] = useState<string>();
  // Nothing was filled in views rendered from a scene.
  const made = job.frames.filter((frame) => frame.made !== undefined && frame.made.way !== 'stage');
  const frame = made.find(({ id }) => id === wanted) ?? made[0];
  return frame === undefined ? null : (
    <MadeFrame job={job} made={made} frame={frame} onChoose={setWanted} />
  );
};
