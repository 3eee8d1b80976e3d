/** The Frames bench: from files to a checked sequence laid into its view slots. */
import { useEffect } from 'react';
import { Panel, Prose } from '../../ui/index.ts';
import { useDocument, useStudio } from '../studio.ts';
import { AddButtons } from './AddButtons.tsx';
import { WatchFolder } from './WatchFolder.tsx';
import { KeptWhere } from './KeptWhere.tsx';
import { DemoPanel } from './DemoPanel.tsx';
import { ExpectedPanel } from './ExpectedPanel.tsx';
import { FrameList } from './FrameList.tsx';
import { PicturePanel } from './PicturePanel.tsx';
import { ParallaxPanel } from './parallax/ParallaxPanel.tsx';
import { SequenceNotes } from './SequenceNotes.tsx';
import { SlotPanel } from './SlotPanel.tsx';
import { SynthPanel } from './synth/SynthPanel.tsx';
import styles from './frames.module.css';

const Empty = () => (
  <div className={styles['empty']}>
    <h3>Drop frames here</h3>
    <p>
      Files, whole folders or a zip. Numbered names are put in order by themselves, and whatever
      cannot be used is named.
    </p>
    <Prose>PNG (8 and 16 bit), JPEG, WebP, AVIF, TIFF, OpenEXR</Prose>
  </div>
);

const FramesBench = () => {
  const { thumbnails } = useStudio();
  const count = useDocument((state) => state.job.frames.length);
  useEffect(() => thumbnails.start(), [thumbnails]);
  return (
    <>
      <Panel
        title={count === 0 ? 'Sequence' : `Sequence: ${count} ${count === 1 ? 'frame' : 'frames'}`}
        actions={<AddButtons />}
      >
        <WatchFolder />
        <KeptWhere />
        {count === 0 ? <Empty /> : <FrameList />}
      </Panel>
      <SequenceNotes />
      {count > 0 && (
        <>
          <SlotPanel />
          <ExpectedPanel />
          <PicturePanel />
          <ParallaxPanel />
          <SynthPanel />
        </>
      )}
      <DemoPanel />
    </>
  );
};

export default FramesBench;
