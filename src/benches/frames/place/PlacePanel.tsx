/** Each picture placed by itself: closed until it is wanted, for many prints need it never. */
import { Suspense, useState } from 'react';
import { sequenceOf } from '../../../job/facts/sheet.ts';
import { Fold, Panel, Prose } from '../../../ui/index.ts';
import { latePart } from '../../desk/late-part.tsx';
import { useJob } from '../../studio.ts';

const PlaceEditor = latePart(() => import('./PlaceEditor.tsx'));

interface Props {
  /** The frame that is chosen in the list. */
  readonly chosen: string | undefined;
  onChoose(id: string): void;
}

export const PlacePanel = ({ chosen, onChoose }: Props) => {
  const job = useJob();
  const [open, setOpen] = useState(false);
  const sequence = sequenceOf(job);
  const frame = sequence.find(({ id }) => id === chosen) ?? sequence[0];
  if (frame === undefined) return null;
  const placed = sequence.filter(({ place }) => place !== undefined).length;
  return (
    <Panel title="Place this picture">
      <Fold
        open={open}
        onToggle={setOpen}
        summary={
          placed === 0
            ? 'Crop, zoom, shift or turn one picture, or lay two photographs on each other'
            : `${placed} of ${sequence.length} placed by ${placed === 1 ? 'itself' : 'themselves'}`
        }
      >
        {open && (
          <Suspense fallback={<Prose>Loading …</Prose>}>
            <PlaceEditor job={job} frame={frame} onChoose={onChoose} />
          </Suspense>
        )}
      </Fold>
    </Panel>
  );
};
