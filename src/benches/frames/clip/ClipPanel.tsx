/** A clip that was handed over: which of its frames become frames of the job. */
import { useStore } from 'zustand';
import type { ClipFacts } from '../../../contract/clip.ts';
import { sayPicks } from '../../../core/frames/clip-picks.ts';
import { nameInText } from '../../../core/names/shown.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import type { ChoiceEdit } from '../../../studio/frames/clips/choose.ts';
import { choose } from '../../../studio/frames/clips/choose.ts';
import type { Clip, ClipChoice } from '../../../studio/frames/clips/state.ts';
import { takeFrames } from '../../../studio/frames/clips/take.ts';
import {
  BlankField,
  Button,
  Columns,
  MeasureField,
  Notice,
  Panel,
  Prose,
  Row,
  Stack,
  UnderWay,
} from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import { ClipStrip } from './ClipStrip.tsx';

const sayFacts = ({ widthPx, heightPx, timesS, endS }: ClipFacts): string =>
  `${widthPx} × ${heightPx} pixels, ${timesS.length} ${timesS.length === 1 ? 'frame' : 'frames'} in ${endS.toFixed(2)} s.`;

interface ChoosingProps {
  readonly clip: Clip;
  readonly facts: ClipFacts;
  readonly choice: ClipChoice;
}

const Fields = ({ clip, choice }: ChoosingProps) => {
  const studio = useStudio();
  const set = (edit: ChoiceEdit) => choose(studio, clip, edit);
  const whole = plainMeasure(1, 0);
  return (
    <>
      <Columns least={8}>
        <MeasureField
          label="First frame"
          value={choice.first + 1}
          measure={whole}
          onCommit={(first) => set({ first })}
        />
        <MeasureField
          label="Last frame"
          value={choice.last + 1}
          measure={whole}
          onCommit={(last) => set({ last })}
        />
        <MeasureField
          label="How many"
          value={choice.count}
          measure={whole}
          onCommit={(count) => set({ count })}
        />
      </Columns>
      <BlankField
        label="Frames to take"
        value={sayPicks(choice.frames)}
        hint="Spread evenly from the first to the last. Type numbers (1, 5, 9) or stretches (3-6) to choose by hand."
        onCommit={(typed) => set({ typed })}
      />
    </>
  );
};

const Choosing = (props: ChoosingProps) => {
  const studio = useStudio();
  const { clip, facts, choice } = props;
  const count = choice.frames.length;
  return (
    <Stack>
      <Prose large>
        {sayFacts(facts)} For depth, take frames of a camera that moves sideways at an even pace.
      </Prose>
      <ClipStrip facts={facts} choice={choice} />
      <Fields {...props} />
      <Row gap="2 4">
        <Button look="primary" onClick={() => void takeFrames(studio, clip)}>
          {`Take ${count} ${count === 1 ? 'frame' : 'frames'}`}
        </Button>
        <Button onClick={() => studio.clips.drop(clip.id)}>Leave the clip</Button>
      </Row>
    </Stack>
  );
};

const Stage = ({ clip }: { readonly clip: Clip }) => {
  const { clips } = useStudio();
  const { stage, id } = clip;
  switch (stage.kind) {
    case 'looking':
      return (
        <UnderWay
          label="Looking at the clip"
          done={Math.round(100 * stage.share)}
          total={100}
          of="hundredths"
          onStop={() => clips.stop(id)}
        />
      );
    case 'taking':
      return (
        <UnderWay
          label="Taking frames"
          done={stage.done}
          total={stage.choice.frames.length}
          of="frames"
          onStop={() => clips.stop(id)}
        />
      );
    case 'failed': {
      const { again } = stage;
      return (
        <Notice kind="problem" title="The clip could not be read" announce>
          <Stack>
            <p>{stage.message}</p>
            <Row gap="2 4">
              {again !== undefined && (
                <Button onClick={() => clips.stage(id, { kind: 'choosing', ...again })}>
                  Choose again
                </Button>
              )}
              <Button onClick={() => clips.drop(id)}>Leave the clip</Button>
            </Row>
          </Stack>
        </Notice>
      );
    }
    case 'choosing':
      return <Choosing clip={clip} facts={stage.facts} choice={stage.choice} />;
  }
};

/** Nothing while no clip waits. */
export const ClipPanel = () => {
  const { clips } = useStudio();
  const waiting = useStore(clips.store, (state) => state.clips);
  const [clip] = waiting;
  if (clip === undefined) return null;
  return (
    <Panel title={`Clip: ${nameInText(clip.file.name)}`}>
      {waiting.length > 1 && (
        <Prose>{`${waiting.length - 1} more to choose from after this one.`}</Prose>
      )}
      <Stage clip={clip} />
    </Panel>
  );
};
