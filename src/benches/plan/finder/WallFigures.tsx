/** A wide print on a wall, and a flip that people walk past: what the edges show, where to stand, how fast it turns. */
import { MOST_FLASHES, WALKING_MM_PER_S } from '../../../core/plan/walk-past.ts';
import { trimmed } from '../../../core/units/format.ts';
import type { Rad } from '../../../core/units/units.ts';
import { radToDeg } from '../../../core/units/units.ts';
import { setRibs } from '../../../job/edits/consequences.ts';
import { lensWishOf } from '../../../job/facts/lens-wish.ts';
import { acrossMm } from '../../../job/facts/sheet.ts';
import type { Passing } from '../../../job/facts/walk-past.ts';
import { edgesOf, isWide } from '../../../job/facts/wall.ts';
import { passingOf } from '../../../job/facts/walk-past.ts';
import { Button, Columns, Figure, Notice, Row } from '../../../ui/index.ts';
import { useChange, useJob } from '../../studio.ts';
import styles from './finder.module.css';
import { useSay } from './use-say.ts';

const degrees = (angle: Rad) => `${trimmed(radToDeg(angle), 0)}°`;

const EdgeFigures = () => {
  const job = useJob();
  const { whole: say } = useSay();
  const edges = edgesOf(job);
  if (edges === undefined) return null;
  const [nearest, farthest] = edges.between;
  const [D, W] = [say(job.print.viewingDistanceMm), say(acrossMm(job))];
  const doubt = edges.doubtZones === undefined ? '' : `, ±${trimmed(edges.doubtZones, 2)}`;
  return (
    <div>
      <Figure
        label="To an edge, from before the middle"
        value={`${say(edges.awayMm)}, at ${degrees(edges.steepRad)}`}
        relation={`√(D² + (W / 2)²), atan(W / 2D), with D = ${D}, W = ${W}`}
      >
        From before one edge to the other it is {say(edges.farAwayMm)}.
      </Figure>
      <Figure
        label="Cone of the edge ribs"
        value={`${degrees(edges.coneRad)}; in the middle ${degrees(edges.middleConeRad)}`}
        relation="atan((W + Z) / 2D) − atan((W − Z) / 2D), with Z = p D / g′"
        relationNumber={4}
      >
        In which each view is seen once.
      </Figure>
      <Figure
        label="The edges differ from the middle"
        value={`by ${trimmed(Math.abs(edges.slideZones), 2)} of a zone${doubt}`}
        relation="(traced landing − g₀ tan θ) / p; ± ΔLPI W(in) / 2"
        relationNumber={8}
      >
        Steep rays land elsewhere than the woven pitch says, on the two edges in opposite ways.
        {edges.doubtZones !== undefined &&
          ' The ± is the nominal pitch’s: a pitch strip removes it.'}
      </Figure>
      <Figure
        label="Stand here to see one view all over"
        value={
          farthest === Infinity
            ? `from ${say(nearest)} on`
            : `from ${say(nearest)} to ${say(farthest)}`
        }
        relation={`|1 / p_v(D′) − 1 / p_v(D)| W ≤ ${trimmed(edges.budgetZones, 2)}`}
        relationNumber={7}
      >
        Where it slides by no more than {trimmed(edges.budgetZones, 2)} of a zone from edge to edge.
        Nearer or farther, the edges turn before the middle does.
      </Figure>
    </div>
  );
};

const PassingFigures = ({ passing }: { readonly passing: Passing }) => {
  const job = useJob();
  const { whole: say } = useSay();
  const near = say(lensWishOf(job).nearMm);
  return (
    <div>
      <Figure
        label="Walking past, a picture lasts"
        value={`${trimmed(passing.secondsAPicture, 2)} s`}
        relation={`Z / (pictures × v), with Z = p D / g′ from ${near}, v = ${trimmed(WALKING_MM_PER_S / 1000, 2)} m/s`}
        relationNumber={4}
      >
        A comfortable walk at its quickest: the highest mean of Bohannon, Age and Ageing 26 (1997).
      </Figure>
      <Figure
        label="Flashes at the worst"
        value={`${trimmed(passing.flashesASecond, 1)} a second; ${MOST_FLASHES} allowed`}
        relation="pairs of light and dark pictures in a zone × v / Z"
      >
        If the pictures are light and dark in turn. From {say(Math.ceil(passing.leastDistanceMm))}{' '}
        on it keeps to three in any one second (WCAG 2.2, 2.3.1).
      </Figure>
      <Figure
        label="Two eyes see different pictures"
        value={`over ${trimmed(100 * passing.apart, 0)} % of the way`}
        relation={`pictures × eyes apart / Z, from ${near}`}
      >
        With upright ribs. Lying ribs show both eyes the same picture.
      </Figure>
    </div>
  );
};

const WhichRibs = () => {
  const { ribs } = useJob();
  const change = useChange();
  const isLying = ribs === 'lying';
  const other = isLying ? 'upright' : 'lying';
  return (
    <Notice
      kind="info"
      title={isLying ? 'Lying ribs: for the hand' : 'Upright ribs: for walking past'}
    >
      <p>
        {isLying
          ? 'The flip turns as the print is tilted up and down, and both eyes see one picture. Who walks past sees no flip.'
          : 'The flip turns for people who walk past. In the hand lying ribs are better: both eyes then see one picture.'}
      </p>
      <Row>
        <Button onClick={() => void change('ribs', (job) => setRibs(job, other))}>
          Run the ribs {other}
        </Button>
      </Row>
    </Notice>
  );
};

export const WallFigures = () => {
  const job = useJob();
  const passing = passingOf(job);
  const wide = isWide(job);
  if (!wide && passing === undefined) return null;
  return (
    <section className={styles['wall']} aria-label="On a wall and walked past">
      <h3>
        {passing === undefined ? 'On a wall' : wide ? 'On a wall, and walked past' : 'Walked past'}
      </h3>
      {passing?.flashes === true && job.ribs === 'upright' && (
        <Notice kind="caution" title="It may flash for people who walk past">
          Up to {trimmed(passing.flashesASecond, 1)} flashes a second can harm photosensitive
          people. Hang it where they pass at a greater distance, or use pictures alike in light.
        </Notice>
      )}
      <Columns least={24} gap="0 6">
        {wide && <EdgeFigures />}
        {passing !== undefined && job.ribs === 'upright' && <PassingFigures passing={passing} />}
      </Columns>
      {passing !== undefined && <WhichRibs />}
    </section>
  );
};
