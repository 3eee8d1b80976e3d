/** What follows from the fields, each figure opening to the relation behind it. */
import { gapAhead } from '../../core/lens/traced.ts';
import {
  formatLengthRough,
  formatPitch,
  sayFine,
  sayLength,
  trimmed,
} from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../../job/schema/job.ts';
import { pagePlanOf, pageToWeave } from '../../job/facts/page.ts';
import {
  dotsUnderRib,
  lensOf,
  sheetDensity,
  sheetSpecOf,
  viewingPitchOf,
} from '../../job/facts/sheet.ts';
import { Figure } from '../../ui/index.ts';
import { useJob, useUnits } from '../studio.ts';
import styles from './Docket.module.css';
import { gridOf } from '../../job/facts/printer.ts';

const pitchRelation = (job: Job): string => {
  const g = trimmed(gapAhead(lensOf(job)), 4);
  const D = trimmed(job.print.viewingDistanceMm, 1);
  const { provedPitch } = job;
  if (provedPitch === undefined)
    return `p_v = p (1 + g₀ / D) = ${trimmed(job.lens.pitchMm, 5)} × (1 + ${g} / ${D})`;
  const { viewingPitchMm, readFromMm } = provedPitch;
  return (
    `p_v = p_read (1 + g₀ / D) / (1 + g₀ / D_read) = ${trimmed(viewingPitchMm, 5)} × ` +
    `(1 + ${g} / ${D}) / (1 + ${g} / ${trimmed(readFromMm, 1)})`
  );
};

/** How surely a strip said it, where it did. */
const plusMinus = ({ provedPitch }: Job): string =>
  provedPitch?.plusMinusLpi === undefined ? '' : ` ±${trimmed(provedPitch.plusMinusLpi, 3)}`;

const methods = {
  band: 'by the best band',
  fringes: 'by counting fringes',
  photo: 'by a photo',
  print: 'by a failed print',
};

/** Where a proved pitch comes from. */
const provenance = ({ provedPitch }: Job, units: LengthUnit): string => {
  if (provedPitch === undefined) return '';
  const { method, readOn, paper, direction, readFromMm } = provedPitch;
  const parts = [
    method && methods[method],
    readOn && `on ${readOn}`,
    `from ${sayLength(readFromMm, units)}`,
    paper && `on ${paper}`,
    direction && `ribs ${direction}`,
  ];
  return ` Proved: read ${parts.filter(Boolean).join(', ')}.`;
};

const WovenPitchFigure = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  const pitch = viewingPitchOf(job);
  return (
    <Figure
      label="Woven pitch"
      value={`${formatPitch(pitch, 'lpi')}${plusMinus(job)} LPI · ${sayFine(pitch, units)}`}
      relation={pitchRelation(job)}
      relationNumber={2}
    >
      What is woven into the print: a little coarser than the lens, because the eye is near.
      {provenance(job, units)}
    </Figure>
  );
};

/** What "Weave sheet" writes: the print, or the whole page that Mount lays it on. */
const SheetFigures = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  const page = pageToWeave(job, units, '');
  const { widthDots, heightDots } = page ?? sheetSpecOf(job);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const { paperWidthMm, paperHeightMm } = pagePlanOf(job);
  const [widthMm, heightMm] =
    page === undefined ? [job.print.widthMm, job.print.heightMm] : [paperWidthMm, paperHeightMm];
  const rough = (length: number) => `${formatLengthRough(mm(length), units)} ${units}`;
  return (
    <>
      <Figure
        label="Sheet"
        value={`${widthDots} × ${heightDots} dots`}
        relation={
          `${rough(widthMm)} at ${trimmed(horizontalDpi, 2)} dpi, ` +
          `${rough(heightMm)} at ${trimmed(verticalDpi, 2)} dpi, to the nearest dot`
        }
      >
        {page !== undefined && 'The whole page, as set on Mount. '}
        The lens pitch itself is never rounded to dots.
      </Figure>
      <Figure
        label="Megadots"
        value={trimmed((widthDots * heightDots) / 1e6, 1)}
        relation={`${widthDots} × ${heightDots} / 1 000 000`}
      />
    </>
  );
};

const laidBy = ({ recipe, slotsByHand }: Job): string => {
  if (slotsByHand !== undefined) return 'Laid into the view slots by hand.';
  return recipe === undefined
    ? 'Spread evenly over the view slots, first and last kept.'
    : 'Laid into the view slots by the recipe on Frames.';
};

export const DocketFigures = () => {
  const job = useJob();
  const dots = dotsUnderRib(job);
  return (
    <section className={styles['figures']}>
      <h3 className="unseen">What follows</h3>
      <WovenPitchFigure job={job} />
      <Figure
        label="Dots under a rib"
        value={trimmed(dots, 2)}
        relation={`dpi × p_v / 25.4 = ${trimmed(gridOf(job).acrossDpi, 2)} × ${trimmed(viewingPitchOf(job), 4)} / 25.4`}
        relationNumber={2}
      >
        The ceiling on view slots. How many of them an eye can tell apart is fewer.
      </Figure>
      <SheetFigures job={job} />
      <Figure
        label="Frames"
        value={`${job.frames.length} for ${job.viewSlots} slots`}
        relation={laidBy(job)}
      />
    </section>
  );
};
