/** The Frames bench: from files to a checked sequence laid into its view slots. */
import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { Panel, Prose, Stack } from '../../ui/index.ts';
import { Parts } from '../desk/Parts.tsx';
import { ALL_PARTS, usePartShown } from '../desk/use-parts.ts';
import { useDocument, useStudio } from '../studio.ts';
import { AddButtons } from './AddButtons.tsx';
import { WatchFolder } from './WatchFolder.tsx';
import { KeptWhere } from './KeptWhere.tsx';
import { ClipPanel } from './clip/ClipPanel.tsx';
import { DemoPanel } from './DemoPanel.tsx';
import { ExpectedLine, useExpected } from './ExpectedLine.tsx';
import { FrameList } from './FrameList.tsx';
import { PicturePanel } from './PicturePanel.tsx';
import { PlacePanel } from './place/PlacePanel.tsx';
import { ParallaxPanel } from './parallax/ParallaxPanel.tsx';
import { SequenceNotes } from './SequenceNotes.tsx';
import { SlotPanel } from './SlotPanel.tsx';
import { SynthPanel } from './synth/SynthPanel.tsx';
import styles from './frames.module.css';

const Empty = () => (
  <div className={styles['empty']}>
    <h3>Drop frames here</h3>
    <p>
      Files, whole folders, a zip or a clip. Numbered names are put in order by themselves, and
      whatever cannot be used is named.
    </p>
    <Prose>PNG (8 and 16 bit), JPEG, WebP, AVIF, TIFF, OpenEXR; clips in MP4, MOV, WebM, GIF</Prose>
  </div>
);

type Expected = ReturnType<typeof useExpected>;

interface SequenceProps {
  /** Left out as long as there are no frames. */
  readonly expected?: Expected;
  onChoose?(id: string): void;
}

const Sequence = ({ expected, onChoose }: SequenceProps) => {
  const count = useDocument((state) => state.job.frames.length);
  return (
    <Panel
      title={count === 0 ? 'Sequence' : `Sequence: ${count} ${count === 1 ? 'frame' : 'frames'}`}
      actions={<AddButtons />}
    >
      <KeptWhere />
      <WatchFolder />
      {expected !== undefined && <ExpectedLine {...expected} />}
      {count === 0 ? <Empty /> : <FrameList onChoose={onChoose} />}
    </Panel>
  );
};

/** While frames are missing, and until what was made of them is told. */
const WhileMissing = ({ missing }: Pick<Expected, 'missing'>) => {
  const { made } = useStudio();
  const [shown] = usePartShown('frames');
  const idle = useStore(made.store, ({ stage }) => stage.kind === 'idle');
  // Among everything it has its own place.
  return (missing > 0 || !idle) && shown !== ALL_PARTS ? <SynthPanel /> : null;
};

const FramesPart = () => {
  // Of thousands of frames this takes a while: worked out once.
  const expected = useExpected();
  const [chosen, choose] = useState<string>();
  return (
    <Stack gap={5}>
      <ClipPanel />
      <Sequence expected={expected} onChoose={choose} />
      <SequenceNotes />
      <SlotPanel />
      <WhileMissing missing={expected.missing} />
      <PicturePanel />
      <PlacePanel chosen={chosen} onChoose={choose} />
    </Stack>
  );
};

const FramesBench = () => {
  const { thumbnails } = useStudio();
  const none = useDocument((state) => state.job.frames.length === 0);
  useEffect(() => thumbnails.start(), [thumbnails]);
  if (none)
    return (
      <Stack gap={5}>
        <ClipPanel />
        <Sequence />
        <SequenceNotes />
        <DemoPanel />
      </Stack>
    );
  return (
    <Parts
      bench="frames"
      parts={[
        { name: 'frames', label: 'Frames', Part: FramesPart },
        { name: 'parallax', label: 'Parallax', Part: ParallaxPanel },
        { name: 'made', label: 'Made views', Part: SynthPanel },
        { name: 'demos', label: 'Demos', Part: DemoPanel },
      ]}
    />
  );
};

export default FramesBench;
