/** What fits under a rib, how it mixes, how many frames to make, and which other pairs would serve. */
import { lensFacts } from '../../../job/facts/plan.ts';
import { useJob } from '../../studio.ts';
import { Columns, Notice, Panel } from '../../../ui/index.ts';
import { AdviceList } from './AdviceList.tsx';
import { FitFigures } from './FitFigures.tsx';
import { MixMap } from './MixMap.tsx';
import { PairsPanel } from './PairsPanel.tsx';

export const FitPanel = () => {
  const job = useJob();
  const facts = lensFacts(job);
  return (
    <>
      <Panel title="Fit">
        {facts === undefined ? (
          <Notice kind="problem" title="No rib of these measures can stand">
            Lens pitch, thickness and index (or the rib radius) contradict each other: measure the
            thickness again, crest to back, and check the pitch. Until then nothing can be traced.
          </Notice>
        ) : (
          <>
            <Columns least={19} gap="4 6">
              <FitFigures job={job} facts={facts} />
              <MixMap key={job.viewSlots} matrix={facts.matrix} />
            </Columns>
            <AdviceList facts={facts} />
          </>
        )}
      </Panel>
      <PairsPanel />
    </>
  );
};
