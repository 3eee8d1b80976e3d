/** What does not go as it was asked for. */
import { nameInText } from '../../../core/names/shown.ts';
import { MOST_PLACES } from '../../../core/sheet/gang/gang-grid.ts';
import { railWidthMm } from '../../../core/sheet/gang/gang-rim.ts';
import { sayLength } from '../../../core/units/format.ts';
import type { GangView } from '../../../job/facts/gang-view.ts';
import { cutsWithoutMark, gangOffPaperMm, laidOf } from '../../../job/facts/gang-view.ts';
import { printedAround } from '../../../job/facts/page.ts';
import { absentGuests, differsInLens, gangOf } from '../../../job/facts/gang.ts';
import type { Job } from '../../../job/schema/job.ts';
import { Notice } from '../../../ui/index.ts';
import { useJob, useUnits } from '../../studio.ts';

interface Props {
  readonly view: GangView;
  readonly others: ReadonlyMap<string, Job> | undefined;
}

const Missing = ({ view }: Pick<Props, 'view'>) => {
  const { places } = view.best;
  const short = view.members.flatMap((member) => {
    const laid = laidOf(view, member.id);
    if (member.copies === 'fill')
      return laid > 0 ? [] : [`“${nameInText(member.name)}” finds no room.`];
    return laid >= member.copies
      ? []
      : [`Of ${member.copies} × “${nameInText(member.name)}”, ${laid} find room.`];
  });
  if (short.length === 0) return null;
  return (
    <Notice kind="caution" title="Not everything finds room">
      {`${short.join(' ')} ${
        places.length === 0
          ? 'Use a larger lens sheet, a smaller free edge or a smaller print.'
          : 'Weave the rest on another lens sheet.'
      }`}
    </Notice>
  );
};

const Absent = ({ others }: Pick<Props, 'others'>) => {
  const job = useJob();
  if (others === undefined) return null;
  const absent = absentGuests(job, (id) => others.has(id));
  const differing = (gangOf(job).guests ?? []).flatMap(({ jobId }) => {
    const guest = others.get(jobId);
    const why = guest === undefined ? undefined : differsInLens(job, guest);
    return guest === undefined || why === undefined
      ? []
      : [`“${nameInText(guest.name)}” is left out: ${why}.`];
  });
  return (
    <>
      {absent.length > 0 && (
        <Notice kind="caution" title="Not all jobs of this lens are kept here">
          {`Left out: ${absent.join(', ')}. The rest is laid and woven without. Open the job file of each to lay it here again, or take it off.`}
        </Notice>
      )}
      {differing.length > 0 && (
        <Notice kind="caution" title="Not all jobs can lie here">
          {`${differing.join(' ')} Take them off, or put their lens right.`}
        </Notice>
      )}
    </>
  );
};

const Softened = ({ view }: Pick<Props, 'view'>) => {
  const soft = view.members.slice(1).filter(({ job }) => (job.soften ?? 0) > 0);
  if (soft.length === 0) return null;
  return (
    <Notice kind="info">
      {`${soft.map(({ name }) => `“${nameInText(name)}”`).join(', ')}: not softened here, since parallax is known of the open job alone.`}
    </Notice>
  );
};

const Unmarked = ({ view }: Pick<Props, 'view'>) => {
  const job = useJob();
  const units = useUnits();
  if (!printedAround(job).marks || view.best.cuts.length === 0) return null;
  const { unmarked, unnumbered } = cutsWithoutMark(job, view, units);
  if (unmarked > 0)
    return (
      <Notice kind="caution" title="No room for all crop marks">
        {`${unmarked} of ${view.best.cuts.length} cuts have none. A larger free edge has room for them; the cutting list tells where each cut lies.`}
      </Notice>
    );
  if (unnumbered === 0) return null;
  return (
    <Notice kind="info">
      {`${unnumbered} of ${view.best.cuts.length} cuts have a crop mark without a number, for want of room: find them by their place in the cutting list.`}
    </Notice>
  );
};

export const GangNotices = ({ view, others }: Props) => {
  const job = useJob();
  const units = useUnits();
  const { edgeMm } = gangOf(job);
  const off = gangOffPaperMm(job);
  return (
    <>
      <Missing view={view} />
      <Absent others={others} />
      <Softened view={view} />
      {view.best.places.length >= MOST_PLACES && (
        <Notice kind="info">{`No more than ${MOST_PLACES} prints are laid on one sheet.`}</Notice>
      )}
      {printedAround(job).rails && railWidthMm(edgeMm) === 0 && (
        <Notice kind="caution" title="No room for rails">
          A free edge of {sayLength(6, units)} and more takes rails to square the lens on.
        </Notice>
      )}
      <Unmarked view={view} />
      {off > 0.05 && (
        <Notice kind="problem" title="The lens sheet is larger than the page prints">
          {`It reaches ${sayLength(off, units)} into the printer margin or past the paper. Choose larger paper under Page, or weave the picture alone.`}
        </Notice>
      )}
    </>
  );
};
