/** What the chosen pictures ask to be counted: no more than their numbers need. */
import type { Asked } from '../../../core/mend/symptoms.ts';
import { SYMPTOMS } from '../../../core/mend/symptoms.ts';
import { sayLength, trimmed } from '../../../core/units/format.ts';
import { MM_PER_INCH } from '../../../core/units/units.ts';
import { beginAnew, changeCounts } from '../../../job/edits/seen.ts';
import {
  changedSince,
  chosenOf,
  countedOtherWay,
  countsOf,
  diagnose,
  seeingOf,
} from '../../../job/facts/mend.ts';
import { bandLabelsOf, sidesOf } from '../../../job/facts/sides.ts';
import type { Seeing } from '../../../job/schema/trial.ts';
import { Button, Notice, Panel, Prose } from '../../../ui/index.ts';
import { useChange, useJob, useUnits } from '../../studio.ts';
import { CountFields } from './CountFields.tsx';

/** What the pictures ask, what is still open, and what was typed before. */
const askedOf = (seeing: Seeing): ReadonlySet<Asked> => {
  const chosen = chosenOf(seeing);
  return new Set([
    ...SYMPTOMS.filter(({ id }) => chosen.includes(id)).flatMap(({ asks }) => asks),
    ...diagnose(seeing).reading.open,
    ...(Object.keys(countsOf(seeing)) as Asked[]),
  ]);
};

const TooMany = ({ seeing }: { readonly seeing: Seeing }) =>
  diagnose(seeing).reading.beyond.length > 0 && (
    <Notice kind="info" title="More bands than this print can show">
      A band is many ribs wide, and the print has no ribs for so many. Count whole bands, from one
      edge to the other; the count is left out until then.
    </Notice>
  );

const OfAnotherPrint = () => {
  const change = useChange();
  const { printed } = seeingOf(useJob());
  return (
    <Notice kind="info" title="The job has changed since this print">
      <p>
        What is counted here is read as of the print that was woven at{' '}
        {trimmed(MM_PER_INCH / printed.viewingPitchMm, 3)} LPI with {printed.viewSlots} view slots.
      </p>
      <Button onClick={() => void change(...beginAnew())}>Look at another print</Button>
    </Notice>
  );
};

/** Bands of the chosen picture that were counted the other way: the pitch would be blamed for a print that lies askew. */
const OtherBands = () => {
  const change = useChange();
  const seeing = seeingOf(useJob());
  const { printed, counts } = seeing;
  const to = countedOtherWay(seeing);
  if (to === undefined) return null;
  const from = to === 'bandsAlong' ? 'bandsAcross' : 'bandsAlong';
  const sides = sidesOf(printed);
  const labels = bandLabelsOf(printed);
  const label = to === 'bandsAlong' ? labels.along : labels.across;
  return (
    <Notice kind="caution" title={`The picture you chose has ${sides[to]} bands`}>
      <p>
        They are counted {to === 'bandsAlong' ? sides.along : sides.across}. The count stands in the
        field for {sides[from]} ones.
      </p>
      <div>
        <Button
          onClick={() =>
            void change(...changeCounts('which bands', { [from]: undefined, [to]: counts[from] }))
          }
        >
          {`Move it to “${label}”`}
        </Button>
      </div>
    </Notice>
  );
};

export const CountPanel = () => {
  const change = useChange();
  const job = useJob();
  const units = useUnits();
  const seeing = seeingOf(job);
  const asked = askedOf(seeing);
  if (asked.size === 0) return null;
  return (
    <Panel
      title="Count it"
      actions={
        job.seeing !== undefined && (
          <Button onClick={() => void change(...beginAnew())}>Clear</Button>
        )
      }
    >
      {changedSince(job, seeing) && <OfAnotherPrint />}
      <Prose>
        Stand straight ahead, {sayLength(seeing.printed.distanceMm, units)} away. Leave empty what
        you cannot tell.
      </Prose>
      <TooMany seeing={seeing} />
      <OtherBands />
      <CountFields asked={asked} />
    </Panel>
  );
};
