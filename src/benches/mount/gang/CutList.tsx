/** The cuts in their order. Every one goes from edge to edge of the piece at hand. */
import { formatLengthRough } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import type { CutLine } from '../../../job/facts/gang-cut-list.ts';
import { cutLines } from '../../../job/facts/gang-cut-list.ts';
import type { GangView } from '../../../job/facts/gang-view.ts';
import { aroundOf } from '../../../job/facts/mount/around.ts';
import { GIVE_WAY, cautionWords } from '../../../job/words/cautions.ts';
import { Prose, Table } from '../../../ui/index.ts';
import { useJob, useUnits } from '../../studio.ts';
import { MountPart } from '../MountPart.tsx';

const where = ({ way, afterRib, ribsFromEdge }: CutLine, ribs: number): string => {
  if (way === 'across') return 'across the ribs';
  const groove =
    afterRib === 0
      ? 'before rib 1'
      : afterRib === ribs
        ? `after rib ${ribs}`
        : `after rib ${afterRib}`;
  return ribsFromEdge === undefined ? groove : `${groove}, ${ribsFromEdge} ribs from the edge`;
};

const waste: Readonly<Record<CutLine['waste'], string>> = {
  left: 'left side',
  right: 'right side',
  above: 'upper side',
  below: 'lower side',
  none: 'none',
};

export const CutList = ({ view }: { readonly view: GangView }) => {
  const job = useJob();
  const units = useUnits();
  const lines = cutLines(job, view);
  const { marks } = aroundOf(job);
  const length = (value: number) => formatLengthRough(mm(value), units);
  const caption = 'Cutting list';
  return (
    <MountPart title={caption}>
      <Prose>
        In order: first the cuts through the whole sheet, then each strip. Every cut goes from edge
        to edge of the piece at hand. Seen from the front, ribs {job.ribs}; ribs are counted from
        the {job.ribs === 'upright' ? 'left' : 'top'}, of {view.grid.ribs} between the free edges.
        Hold a metal rule in the groove and run the blade along it: the groove, not the millimetre,
        says where the rule lies.
        {marks && ' The crop marks in the free edge carry the numbers of this list.'}
      </Prose>
      {(['blades', 'edges'] as const).map((kind) => (
        <p key={kind}>
          <strong>{cautionWords[kind].of}.</strong> {cautionWords[kind].say}
        </p>
      ))}
      <Prose>{GIVE_WAY}</Prose>
      <Table
        name={caption}
        head={[
          'Cut',
          'Piece at hand',
          `From its edge, ${units}`,
          `From the sheet’s edge, ${units}`,
          'Groove',
          'Waste',
        ]}
        rows={lines.map((line) => [
          line.number,
          line.piece,
          `${length(line.fromEdgeMm)} from the ${line.edge}`,
          length(line.fromSheetMm),
          where(line, view.grid.ribs),
          waste[line.waste],
        ])}
      />
    </MountPart>
  );
};
