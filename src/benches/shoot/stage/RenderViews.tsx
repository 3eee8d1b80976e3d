/** The views, rendered through the rig: progress, a stop, and word when they no longer fit it. */
import { plannedFrame } from '../../../job/facts/rig.ts';
import { samplesOf, standOfViews, viewsWanted } from '../../../job/facts/stage.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { StageChoices } from '../../../job/schema/stage.ts';
import type { OpenScene } from '../../../studio/stage/open.ts';
import { renderViews } from '../../../studio/stage/render-views.ts';
import { Button, Notice, Prose, Row, Stack, UnderWay } from '../../../ui/index.ts';
import { BenchLink } from '../../desk/BenchLink.tsx';
import { useStudio, useTask } from '../../studio.ts';

interface Props {
  readonly job: Job;
  readonly stage: StageChoices;
  readonly open: OpenScene;
}

export const RenderViews = ({ job, stage, open }: Props) => {
  const studio = useStudio();
  const state = useTask('stageViews');
  const { widthPx, heightPx } = plannedFrame(job);
  const missing = viewsWanted(job).filter(({ frame }) => frame === undefined).length;
  const stand = standOfViews(job);
  if (state.stage === 'rendering')
    return (
      <UnderWay
        label="Rendering"
        done={Math.floor(state.done)}
        total={state.count}
        of="views"
        secondsLeft={state.secondsLeft}
        onStop={() => studio.tasks.stop('stageViews')}
      />
    );
  return (
    <Stack gap={2}>
      {stand === 'stale' && (
        <Notice kind="caution" title="These views were rendered for another rig">
          Rig, lens or scene have changed since: {missing} of {job.viewSlots} are to be rendered
          again. The others stay.
        </Notice>
      )}
      <Row gap="2 3">
        <Button
          look="primary"
          off={missing === 0}
          onClick={() => void renderViews(studio, open.facts)}
        >
          Render views
        </Button>
        <Prose as="span">
          {missing === 0
            ? 'All views are rendered for this rig.'
            : `${missing} of ${job.viewSlots} views, ${widthPx} × ${heightPx} px by the render plan, ${samplesOf(stage)} samples a pixel.`}
        </Prose>
      </Row>
      {state.stage === 'failed' ? (
        <Notice kind="problem" title="The views were not rendered" announce>
          {state.message}
        </Notice>
      ) : (
        state.stage !== 'idle' && (
          <Prose role="status">
            {state.message}{' '}
            {state.stage === 'rendered' && <BenchLink label="See them on Frames" goTo="frames" />}
          </Prose>
        )
      )}
      <Prose>
        Drawn in linear light, averaged, then toned by the Khronos PBR Neutral curve and kept as
        8-bit sRGB PNG. Shine and glass are first views: what only a path tracer shows is left to
        your own renderer.
      </Prose>
    </Stack>
  );
};
