/** Frames made between two neighbours, for a gap or for finer steps. */
import { useStore } from 'zustand';
import { nameInText } from '../../../core/names/shown.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import type { Job } from '../../../job/schema/job.ts';
import { startBetween } from '../../../studio/frames/made/make.ts';
import { gapOf } from '../../../studio/frames/made/scene.ts';
import {
  Button,
  Columns,
  MeasureField,
  Prose,
  Row,
  SelectField,
  Stack,
} from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import styles from './synth.module.css';

export const BetweenPart = ({ job, busy }: { readonly job: Job; readonly busy: boolean }) => {
  const studio = useStudio();
  const { made } = studio;
  const gap = gapOf(job, useStore(made.store));
  return (
    <Stack as="section" className={styles['part']} aria-labelledby="fill-between">
      <h3 id="fill-between">Fill between frames</h3>
      {gap === undefined ? (
        <Prose large>It takes two frames to make one between them.</Prose>
      ) : (
        <>
          <Prose large>
            Matches two neighbours, moves each towards the other and blends them. For small steps of
            a row of cameras, left to right; turned or leaping things tear.
          </Prose>
          <Columns least={12}>
            <SelectField
              label="Between"
              value={gap.first.id}
              choices={job.frames.slice(0, -1).map(({ id, name }, index) => ({
                value: id,
                label: `${nameInText(name)} and ${nameInText(job.frames[index + 1]?.name ?? '')}`,
              }))}
              onChange={(gapAfter) => made.set({ gapAfter, gapCount: undefined })}
            />
            <MeasureField
              label="Frames between"
              value={gap.count}
              measure={plainMeasure(1, 0)}
              onCommit={(gapCount) => {
                if (!(Number.isInteger(gapCount) && gapCount >= 1 && gapCount <= 24))
                  return 'Frames between must be a whole number from 1 to 24.';
                made.set({ gapCount });
                return undefined;
              }}
            />
          </Columns>
          <Row gap="2 4">
            <Button off={busy} onClick={() => void startBetween(studio)}>
              Fill between frames
            </Button>
          </Row>
        </>
      )}
    </Stack>
  );
};
