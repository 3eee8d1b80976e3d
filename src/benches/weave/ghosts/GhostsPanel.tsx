/** See the ghost first: where the pictures of a flip will shine through one another, the worst places, and what helps. */
import { useEffect, useMemo, useState } from 'react';
import { trimmed } from '../../../core/units/format.ts';
import { withoutEase } from '../../../job/edits/ghost-cures.ts';
import { sayEased } from '../../../job/facts/ghost-ease.ts';
import type { CureTried, GhostView } from '../../../studio/proof/ghost-map.ts';
import {
  SEEN_STEPS,
  createGhostMapper,
  curesTried,
  worstOf,
} from '../../../studio/proof/ghost-map.ts';
import { Button, ChoiceField, Panel, Prose, Row, Stack } from '../../../ui/index.ts';
import { useChange, useJob, useWork } from '../../studio.ts';
import { GhostDrawing } from './GhostDrawing.tsx';
import styles from './ghosts.module.css';

const steps = (count: number): string =>
  count < SEEN_STEPS ? 'not to be seen' : `${trimmed(count, 0)} steps`;

/** "upper left", "middle": by thirds of the print. */
const whereWords = ({ x, y }: { readonly x: number; readonly y: number }): string => {
  const third = (share: number, names: readonly [string, string, string]) =>
    names[Math.min(2, Math.floor(3 * share))] as string;
  const words = [third(y, ['upper', '', 'lower']), third(x, ['left', '', 'right'])];
  return words.filter((word) => word !== '').join(' ') || 'middle';
};

/** Places that lie close to a worse one say the same again. */
const APART = 0.2;
const MOST_PLACES = 4;
const apart = ({ places }: GhostView) =>
  places
    .filter(({ steps: count }) => count >= SEEN_STEPS)
    .reduce<GhostView['places'][number][]>(
      (kept, one) =>
        kept.length < MOST_PLACES &&
        kept.every(({ x, y }) => Math.hypot(x - one.x, y - one.y) > APART)
          ? [...kept, one]
          : kept,
      [],
    );

const useGhosts = () => {
  const job = useJob();
  const prepared = useWork((work) => work.prepared);
  const [mapper] = useState(createGhostMapper);
  const views = useMemo(() => mapper.viewsOf(job, prepared), [mapper, job, prepared]);
  const [tried, setTried] = useState<{ of: typeof views; cures: readonly CureTried[] }>();
  useEffect(() => {
    if (views === undefined || worstOf(views) < SEEN_STEPS) return undefined;
    const halt = new AbortController();
    void curesTried(mapper, job, prepared, halt.signal).then((cures) => {
      if (!halt.signal.aborted) setTried({ of: views, cures });
    });
    return () => halt.abort();
  }, [mapper, job, prepared, views]);
  // What was tried for another state of the job says nothing of this one.
  return { views, cures: tried?.of === views ? tried?.cures : undefined };
};

const Cures = ({ cures }: { readonly cures: readonly CureTried[] | undefined }) => {
  const change = useChange();
  if (cures === undefined) return <Prose role="status">Trying what would help …</Prose>;
  if (cures.length === 0)
    return (
      <Prose>
        Neither guard slots nor ghost removal, another order or less contrast helps here: use fewer
        pictures, or pictures that are alike in light where they differ most.
      </Prose>
    );
  return (
    <ul className={styles['cures']}>
      {cures.map(({ kind, label, edit, worst }) => (
        <li key={kind}>
          <Button onClick={() => void change(...edit)}>{label}</Button>
          <span>leaves {worst < SEEN_STEPS ? 'nothing to be seen' : steps(worst)}</span>
        </li>
      ))}
    </ul>
  );
};

const Seen = ({ views }: { readonly views: readonly GhostView[] }) => {
  const [chosen, choose] = useState(0);
  const view = views[Math.min(chosen, views.length - 1)];
  if (view === undefined) return null;
  const places = apart(view);
  return (
    <>
      <ChoiceField
        label="While this picture should be seen"
        choices={views.map(({ picture }, at) => ({
          value: String(at),
          label: `Picture ${picture + 1}`,
        }))}
        value={String(Math.min(chosen, views.length - 1))}
        onChange={(value) => choose(Number(value))}
      />
      <GhostDrawing view={view} places={places} />
      {places.length === 0 ? (
        <p>Nothing shines through that a person would see.</p>
      ) : (
        <ol className={styles['places']}>
          {places.map((place) => (
            <li key={`${place.x} ${place.y}`}>
              {whereWords(place)}: picture {place.from + 1} shines through, {steps(place.steps)}
            </li>
          ))}
        </ol>
      )}
    </>
  );
};

/** What was lowered, and the way back. */
const Eased = () => {
  const change = useChange();
  const job = useJob();
  const said = sayEased(job);
  if (said === '') return null;
  return (
    <Row>
      <p>{said}</p>
      <Button onClick={() => void change(...withoutEase)}>Give the contrast back</Button>
    </Row>
  );
};

export const GhostsPanel = () => {
  const { views, cures } = useGhosts();
  if (views?.length === 0) return null;
  const worst = worstOf(views ?? []);
  return (
    <Panel title="Ghosts">
      {views === undefined ? (
        <Prose role="status">The map is drawn once the frames are prepared.</Prose>
      ) : (
        <Stack>
          <p role="status">
            <strong>
              {worst < SEEN_STEPS
                ? 'By this lens and printer no ghost is to be seen beside the changes.'
                : `The worst ghost: ${steps(worst)}.`}
            </strong>
          </p>
          <Eased />
          <Seen views={views} />
          {worst >= SEEN_STEPS && (
            <>
              <h3>What helps</h3>
              <Cures cures={cures} />
            </>
          )}
          <Prose>
            A step is the least difference in light that a person tells apart in a good place, on
            even ground (Grayscale Standard Display Function, DICOM PS3.14; paper white at 500 lx).
            Under 1 nothing is seen; detail of a picture’s own hides some steps more. Seen from the
            slot next to each change; nearer to it more shines through. From the traced lens and the
            printed dot; haze, spreading ink and a sheet that is not flat add to it: the ghost wedge
            on Calibrate tells how much.
          </Prose>
        </Stack>
      )}
    </Panel>
  );
};
