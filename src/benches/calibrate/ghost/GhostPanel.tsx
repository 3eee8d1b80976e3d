/** The ghost wedge: weave it, look where its ghost vanishes, and remove that much ghost from the sheet. */
import { useState } from 'react';
import { sayLength, trimmed } from '../../../core/units/format.ts';
import { percentMeasure, plainMeasure } from '../../../core/units/measure.ts';
import { PATCHES } from '../../../core/weave/ghost-wedge.ts';
import { MOST_LEAK } from '../../../core/weave/ghost.ts';
import { readPatch, removeTrim } from '../../../job/edits/wedge.ts';
import { expectedLeak } from '../../../job/facts/expected-leak.ts';
import { STRONGEST, reachOf, settingFits, wedgePlanOf } from '../../../job/facts/ghost.ts';
import type { Job } from '../../../job/schema/job.ts';
import { weaveWedge } from '../../../studio/weave/wedge.ts';
import { BlankMeasure, Fields, Figure, MeasureField, Notice, Panel } from '../../../ui/index.ts';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { MakeFile } from '../../desk/MakeFile.tsx';
import { useJob, useStudio, useUnits } from '../../studio.ts';
import { useEditOrRefusal } from '../use-edit-or-refusal.ts';
import { TrimPart } from './TrimPart.tsx';

const leakMeasure = percentMeasure(5);
const patchMeasure = plainMeasure(0.5, 2);

const Expected = ({ job, leak }: { readonly job: Job; readonly leak: number }) => {
  const far = reachOf(job);
  return (
    <Figure
      label="Leak of the traced lens"
      value={leak > 1 ? 'over 100 %' : `${trimmed(100 * leak, 1)} %`}
      relation="c = share of the other picture / share of its own, from the lens’s spot and the printed dot"
      relationNumber={8}
    >
      {far === 1
        ? 'Of the slots to either side, in the middle of a slot.'
        : `Of the picture ${far} slots away, in the middle of a picture.`}{' '}
      A true lens leaks more: haze, ink that spreads, a sheet not quite flat. The wedge tells.
    </Figure>
  );
};

const TooFine = () => (
  <Notice kind="caution" title="More leaks than ghost removal can take out">
    The eye still tells the slots apart while less than 100 % leaks, but each carries the ghost of
    the next, and ghost removal takes out {trimmed(100 * MOST_LEAK, 0)} % at most. Where ghosts
    matter use fewer view slots; frames that differ little from slot to slot need no removal.
  </Notice>
);

const HowToRead = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  return (
    <ol>
      <li>
        Print it at 100 %, no scaling, like the strip: same paper, same setting, same way round. Lay
        the lens over it, square.
      </li>
      <li>
        One eye, from {sayLength(job.print.viewingDistanceMm, units)}. Move your head{' '}
        {job.ribs === 'upright' ? 'sideways' : 'up and down'} until the squares of patch 1 are
        faintest: you are looking at the even grey, and what squares are left are the ghost.
      </li>
      <li>
        Stay there and look down the patches. The squares fade, vanish, and come back as their
        negative. Type the patch where they are gone; 6.5 lies between 6 and 7.
      </li>
    </ol>
  );
};

const Reading = ({ job }: { readonly job: Job }) => {
  const make = useEditOrRefusal();
  const { ghostWedge, ghostTrim } = job;
  const patch =
    ghostWedge === undefined || ghostTrim?.plusMinus === undefined
      ? undefined
      : 1 + (ghostTrim.leak / ghostWedge.strongest) * (PATCHES - 1);
  return (
    <Fields least={11}>
      <BlankMeasure
        label="Patch without ghost"
        value={patch}
        measure={patchMeasure}
        hint={
          ghostWedge === undefined
            ? 'Weave a wedge first.'
            : `Of the wedge of ${ghostWedge.wovenOn}, 1 to ${PATCHES}.`
        }
        onCommit={(typed) => make(typed === undefined ? removeTrim() : readPatch(job, typed))}
      />
    </Fields>
  );
};

export const GhostPanel = () => {
  const job = useJob();
  // One slot has no neighbour to leak.
  const leak = job.viewSlots < 2 ? undefined : expectedLeak(job);
  const studio = useStudio();
  const [strongest, setStrongest] = useState(STRONGEST);
  const plan = wedgePlanOf(job, strongest);
  const { ghostWedge, ghostTrim } = job;
  return (
    <Panel title="Ghost removal">
      <p>
        A rib shows a little of the other slots with the one it should: a ghost. Print one wedge,
        see how strong it is under this lens, and the studio takes that much out of every slot
        beforehand.
      </p>
      <div>
        {leak !== undefined && <Expected job={job} leak={leak} />}
        <Figure
          label="From patch to patch"
          value={`${trimmed((100 * strongest) / (PATCHES - 1), 2)} %`}
          relation={`${trimmed(100 * strongest, 1)} % / (${PATCHES} − 1) patches`}
        >
          Patch 1 has nothing removed; the last has {trimmed(100 * strongest, 1)} % removed.
        </Figure>
      </div>
      {leak !== undefined && leak > MOST_LEAK && <TooFine />}
      <Fields least={11}>
        <MeasureField
          label="Strongest leak"
          value={strongest}
          measure={leakMeasure}
          hint="Of the last patch."
          onCommit={(value) => {
            if (!(value >= 0.01 && value <= MOST_LEAK))
              return `Strongest leak must be from 1 to ${100 * MOST_LEAK} %.`;
            setStrongest(value);
            return undefined;
          }}
        />
      </Fields>
      {!plan.ok && (
        <Notice kind="problem" title="This wedge cannot be woven">
          {plan.message}
        </Notice>
      )}
      <MakeFile
        kind="wedge"
        name="wedge"
        off={!plan.ok}
        onWeave={(asked) => void weaveWedge(studio, strongest, asked)}
      />
      {ghostWedge !== undefined && (
        <>
          <HowToRead job={job} />
          <CautionNotes kinds={['edges']} />
        </>
      )}
      {ghostWedge !== undefined && !settingFits(job, ghostWedge) && (
        <Notice kind="caution" title="Another setting since that wedge">
          Lens pitch, dots across, view slots, columns or the pictures of the flip have changed: its
          patches speak of the setting it was woven for. Weave another.
        </Notice>
      )}
      <Reading job={job} />
      {ghostTrim !== undefined && <TrimPart trim={ghostTrim} />}
    </Panel>
  );
};
