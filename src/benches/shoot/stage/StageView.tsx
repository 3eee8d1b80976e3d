/** The scene through the rig, moved by hand: the picture is what the middle of the row sees. */
import type { MouseEvent } from 'react';
import { useEffect, useRef, useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import { trimmed } from '../../../core/units/format.ts';
import type { StageDepths } from '../../../contract/stage.ts';
import type { StageHand } from '../../../job/edits/stage.ts';
import { dragStage, keyThrough, widenStage } from '../../../job/edits/stage.ts';
import { plannedFrame } from '../../../job/facts/rig.ts';
import { groundOf, ribsAtInfinity, rigFromOutside, stageCamera } from '../../../job/facts/stage.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { StageChoices } from '../../../job/schema/stage.ts';
import type { OpenScene } from '../../../studio/stage/open.ts';
import { secondsOfView } from '../../../studio/stage/scene.ts';
import { depthShares } from '../../../studio/stage/shares.ts';
import {
  Button,
  ChoiceField,
  Notice,
  Prose,
  Row,
  Slider,
  Stack,
  useGrip,
} from '../../../ui/index.ts';
import { useWidth } from '../../../ui/plot/index.ts';
import { useShownJob } from '../use-shown-job.ts';
import styles from './stage.module.css';
import type { StageEdit } from './use-stage-edits.ts';
import { useStagePicture } from './use-stage-picture.ts';

/** An emulated graphics card draws larger pictures too slowly to be moved. */
const WIDTH_AT_MOST = 720;
const HEIGHT_AT_MOST = 560;
const STEP = 0.02;
const WIDER = 1.1;

const hands: readonly { readonly value: StageHand; readonly label: string }[] = [
  { value: 'turn', label: 'Turn' },
  { value: 'move', label: 'Move' },
  { value: 'key', label: 'Key plane' },
];

const labels: Readonly<Record<StageHand, string>> = {
  turn: 'turning the rig',
  move: 'moving the rig',
  key: 'key plane',
};

const handWords: Readonly<Record<StageHand, string>> = {
  turn: 'Drag to turn the rig about the middle of its key plane; the wheel widens the frame.',
  move: 'Drag to move the rig sideways and up; the wheel widens the frame.',
  key: 'Press a thing and the key plane goes through it; drag down to bring it nearer, up to send it away.',
};

interface Props {
  readonly job: Job;
  readonly stage: StageChoices;
  readonly open: OpenScene;
  readonly edit: StageEdit;
}

const share = (value: number) => `${trimmed(100 * value, value < 0.01 ? 1 : 0)} %`;

const Held = ({ job, depths }: { readonly job: Job; readonly depths: StageDepths | undefined }) => {
  const shares = depths === undefined ? undefined : depthShares(job, depths);
  return (
    <Prose large role="status">
      {shares === undefined
        ? depths === undefined
          ? 'The scene is being drawn …'
          : 'Nothing of the scene is in the frame. Frame it from the front.'
        : `Of what is seen, ${share(shares.sharp)} is sharp through this lens, ${share(shares.soft)} soft (amber), ${share(shares.broken)} breaks up (red, hatched).`}
    </Prose>
  );
};

/** Where a press falls on the depth map; undefined where nothing is. */
const pressed = (
  { currentTarget, clientX, clientY }: MouseEvent,
  { columns, rows, values }: StageDepths,
): number | undefined => {
  const { left, top, width, height } = currentTarget.getBoundingClientRect();
  const at = (part: number, of: number) => Math.min(of - 1, Math.max(0, Math.floor(part * of)));
  const column = at((clientX - left) / width, columns);
  const away = values[at((clientY - top) / height, rows) * columns + column];
  return away === undefined || away === Infinity ? undefined : away;
};

const useWheel = (widen: (times: number) => void) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const latest = useRef(widen);
  useEffect(() => {
    latest.current = widen;
  });
  useEffect(() => {
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      latest.current(WIDER ** Math.sign(event.deltaY));
    };
    const on = canvas.current;
    // React's own listener may not keep the page from scrolling.
    on?.addEventListener('wheel', onWheel, { passive: false });
    return () => on?.removeEventListener('wheel', onWheel);
  }, []);
  return canvas;
};

const useSize = (job: Job) => {
  const [box, room] = useWidth<HTMLDivElement>(640);
  const { widthPx, heightPx } = plannedFrame(job);
  const scale = Math.min(Math.min(room, WIDTH_AT_MOST) / widthPx, HEIGHT_AT_MOST / heightPx);
  return {
    box,
    widthPx: Math.max(16, Math.round(widthPx * scale)),
    heightPx: Math.max(16, Math.round(heightPx * scale)),
  };
};

/** Drags and arrow keys move the rig; `moved` tells a drag from a press. */
const useHand = (hand: StageHand, job: Job, edit: StageEdit) => {
  const { onDraft } = useShownJob();
  const moved = useRef(false);
  const { handlers } = useGrip({
    take: () => {
      moved.current = false;
      return job;
    },
    pull: (from, { dx, dy, width, height }) => {
      moved.current = moved.current || Math.hypot(dx, dy) > 3;
      const part = [dx / width, dy / height] as const;
      onDraft(dragStage(from, hand, ...part));
      return part;
    },
    drop: (part) => {
      onDraft(undefined);
      if (moved.current) edit(labels[hand], (now) => dragStage(now, hand, ...part));
    },
    cancel: () => onDraft(undefined),
    step: (right, down, big) => {
      const by = STEP * (big ? 5 : 1);
      edit(labels[hand], (now) => dragStage(now, hand, right * by, down * by));
    },
  });
  return { handlers, moved };
};

interface Seeing {
  readonly view: number;
  readonly tinted: boolean;
  readonly outside: boolean;
}

/** What is drawn of the stage, and the key of all that it depends on. */
const wishOf = (
  { job, stage, open }: Props,
  { view, tinted, outside }: Seeing,
  size: { readonly widthPx: number; readonly heightPx: number },
) => {
  const isMiddle = view === (job.viewSlots - 1) / 2;
  const camera = stageCamera(job, stage, isMiddle ? undefined : Math.round(view));
  const look = {
    ...(outside ? rigFromOutside(job, stage) : { camera, lines: [] }),
    ...size,
    // The tint goes by distances from the rig's cameras.
    tinted: tinted && !outside,
    seconds: secondsOfView(job, stage, open.facts, view),
  };
  const drawn = [stage.sceneId, groundOf(stage), stage.stops, stage.clip, ribsAtInfinity(job)];
  return { isMiddle, wish: { open, job, stage, look }, key: JSON.stringify([look, drawn]) };
};

const OUTSIDE_WORDS =
  'White: the key plane. Blue: the row of cameras and what its ends see. Amber: where the lens stops being sharp.';

export const StageView = (props: Props) => {
  const { job, stage, edit } = props;
  const [hand, setHand] = useState<StageHand>('turn');
  const [seeing, setSeeing] = useState<Seeing>({
    view: (job.viewSlots - 1) / 2,
    tinted: true,
    outside: false,
  });
  const { tinted, outside } = seeing;
  const { box, ...size } = useSize(job);
  const canvas = useWheel((times) => edit('width of the frame', (now) => widenStage(now, times)));
  const view = Math.min(seeing.view, job.viewSlots - 1);
  const { isMiddle, wish, key } = wishOf(props, { ...seeing, view }, size);
  const { depths, fault } = useStagePicture(canvas, key, wish);
  const { handlers, moved } = useHand(hand, job, edit);
  const onClick = (event: MouseEvent) => {
    if (hand !== 'key' || moved.current || depths === undefined || outside) return;
    const away = pressed(event, depths);
    if (away !== undefined) edit('key plane', (now) => keyThrough(now, away));
  };
  const see = (change: Partial<Seeing>) => setSeeing({ ...seeing, ...change });
  return (
    <Stack gap={2}>
      <Row gap="2 4">
        <ChoiceField
          label="Drag to"
          choices={hands}
          value={hand}
          onChange={(next) => setHand(next)}
          compact
        />
        <Button aria-pressed={tinted} off={outside} onClick={() => see({ tinted: !tinted })}>
          Show what the lens holds
        </Button>
        <Button aria-pressed={outside} onClick={() => see({ outside: !outside })}>
          See the rig from outside
        </Button>
      </Row>
      <div ref={box}>
        <div className={styles['view']} style={{ width: size.widthPx }}>
          <canvas
            ref={canvas}
            role="img"
            aria-label={`The scene ${nameInText(stage.sceneName)} through the rig. Arrow keys do what dragging does.`}
            tabIndex={0}
            data-hand={hand}
            data-testid="stage"
            {...handlers}
            onClick={onClick}
          />
        </div>
      </div>
      {fault !== undefined && (
        <Notice kind="problem" title="The scene is not drawn" announce>
          {fault}
        </Notice>
      )}
      {outside ? <Prose large>{OUTSIDE_WORDS}</Prose> : <Held job={job} depths={depths} />}
      <Prose>{handWords[hand]}</Prose>
      <Slider
        label="Seen from view"
        value={view}
        min={0}
        max={Math.max(0, job.viewSlots - 1)}
        step={0.5}
        valueText={
          isMiddle ? 'the middle of the row' : `view ${Math.round(view) + 1} of ${job.viewSlots}`
        }
        onChange={(next) => see({ view: next })}
      />
    </Stack>
  );
};
