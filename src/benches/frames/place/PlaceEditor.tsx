/** One picture and where it lies on the print. */
import { useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import {
  lightPicture,
  othersLike,
  placeOthersLike,
  placePicture,
} from '../../../job/edits/place.ts';
import { middlePlace } from '../../../job/facts/laid.ts';
import { sequenceOf } from '../../../job/facts/sheet.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { frameChoices } from '../../../job/words/frames.ts';
import { Button, Fold, Row, SelectField, Stack } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import { BareNotice } from './BareNotice.tsx';
import { MatchPart } from './MatchPart.tsx';
import styles from './place.module.css';
import { LightFields, PlaceFields } from './PlaceFields.tsx';
import { PlaceStage } from './PlaceStage.tsx';

interface Props {
  readonly job: Job;
  readonly frame: Frame;
  onChoose(id: string): void;
}

const Ways = ({ job, frame }: Pick<Props, 'job' | 'frame'>) => {
  const { change } = useStudio();
  const alike = othersLike(job, frame);
  const lay = (how: 'fill' | 'fit') =>
    void change(...placePicture(frame, middlePlace(job, frame, how)));
  const isAsItCame = frame.place === undefined && frame.light === undefined;
  return (
    <Row gap={2}>
      <Button onClick={() => lay('fill')}>Fill</Button>
      <Button onClick={() => lay('fit')}>Fit</Button>
      <Button
        off={isAsItCame}
        onClick={() => {
          const [label, place] = placePicture(frame, undefined);
          const [, light] = lightPicture(frame, undefined);
          change(label, (now) => light(place(now)));
        }}
      >
        Back to as it was
      </Button>
      {alike.length > 0 && (
        <Button onClick={() => void change(...placeOthersLike(frame))}>
          Lay {alike.length === 1 ? 'the other' : `all ${alike.length} others`} of its size alike
        </Button>
      )}
    </Row>
  );
};

const PlaceEditor = ({ job, frame, onChoose }: Props) => {
  const sequence = sequenceOf(job);
  const [otherId, setOther] = useState('');
  const [isThrough, setThrough] = useState(false);
  const others = sequence.filter(({ id }) => id !== frame.id);
  const other = others.find(({ id }) => id === otherId) ?? others[0];
  return (
    <Stack gap={4}>
      <SelectField
        label="Picture"
        value={frame.id}
        choices={frameChoices(job, sequence)}
        onChange={onChoose}
      />
      <Row gap={5} align="start">
        <Stack className={styles['drawing']}>
          <PlaceStage job={job} frame={frame} through={isThrough ? other : undefined} />
          {other !== undefined && (
            <label className={styles['tick']}>
              <input
                type="checkbox"
                checked={isThrough}
                onChange={(event) => setThrough(event.target.checked)}
              />
              Show {nameInText(other.name)} through it
            </label>
          )}
        </Stack>
        <Stack gap={4} className={styles['controls']}>
          <PlaceFields job={job} frame={frame} />
          <Ways job={job} frame={frame} />
          <BareNotice job={job} frame={frame} />
          <Fold summary="Brightness and white">
            <LightFields frame={frame} />
          </Fold>
        </Stack>
      </Row>
      <MatchPart
        key={frame.id}
        job={job}
        frame={frame}
        others={others}
        other={other}
        onOther={setOther}
      />
    </Stack>
  );
};

export default PlaceEditor;
