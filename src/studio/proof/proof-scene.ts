/** The job in the tilt proof's terms: the pictures under the ribs, and what an eye at a tilt sees. */
import { placeSeen } from '../../core/lens/traced.ts';
import type { Blur } from '../../core/lens/mix.ts';
import { EYES_APART_MM } from '../../core/plan/depth.ts';
import type { Drift, ProofScene, ProofView } from '../../core/proof/scene.ts';
import { DRIFT_STEPS, noSlide } from '../../core/proof/scene.ts';
import type { ProofSources } from '../../core/proof/sources.ts';
import { sceneOf } from '../../core/proof/sources.ts';
import { MM_PER_INCH, mm } from '../../core/units/units.ts';
import { lenticulesOver } from '../../core/weave/column-map.ts';
import { dotsAcross, dotsAlong } from '../../core/weave/sheet-spec.ts';
import { blurOf, eyeOf } from '../../job/facts/eye.ts';
import { trimOf } from '../../job/facts/ghost.ts';
import { bleedMmOf, lensOf, movedZones, sheetSpecOf } from '../../job/facts/sheet.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Prepared } from '../../state/work.ts';

export const proofSourcesOf = (job: Job, prepared: ReadonlyMap<string, Prepared>): ProofSources => {
  const sheet = sheetSpecOf(job);
  const { pictures, mixes, slots } = slotPicturesOf(job);
  const { first, count } = lenticulesOver(sheet);
  const acrossMm = (dotsAcross(sheet) * MM_PER_INCH) / sheet.acrossDpi;
  return {
    pictures: pictures.map(({ id }) => prepared.get(id)?.proof),
    mixes,
    slots,
    trim: trimOf(job),
    ribs: job.ribs,
    widthMm: job.print.widthMm + 2 * bleedMmOf(job),
    heightMm: job.print.heightMm + 2 * bleedMmOf(job),
    lenticules: count,
    // Ribs are seen where they lie on the lens, p apart. A little more than the woven ones fit over the print: at
    // its edges an eye before the middle looks past it.
    acrossStart:
      -acrossMm / 2 / sheet.lensPitchMm - sheet.offsetMm / sheet.viewingPitchMm + 0.5 - first,
    acrossSpan: acrossMm / sheet.lensPitchMm,
  };
};

/** The same, mixed. */
export const proofSceneOf = (job: Job, prepared: ReadonlyMap<string, Prepared>): ProofScene =>
  sceneOf(proofSourcesOf(job, prepared));

/**
 * With ghost removal between neighbours the pictures already contain what each slot shows of the next. Only a
 * linear transition from slot to slot is left to draw.
 */
const seenBlurOf = (job: Job, eyeMm: number): Blur =>
  trimOf(job)?.reachSlots === 1 ? { spot: 0, dot: 1 / job.viewSlots } : blurOf(job, eyeMm);

/** By relation 1, traced for each rib: what a straight line would put up to half a view slot amiss at an edge. */
const placesOf = (job: Job, eyeMm: number): { readonly place: number; readonly drift: Drift } => {
  const [lens, sheet] = [lensOf(job), sheetSpecOf(job)];
  const distanceMm = mm(job.print.viewingDistanceMm);
  const acrossMm = (dotsAcross(sheet) * MM_PER_INCH) / sheet.acrossDpi;
  const alongMm = (dotsAlong(sheet) * MM_PER_INCH) / sheet.alongDpi;
  const at = (ribMm: number, along = 0) =>
    placeSeen(lens, { ribMm, alongMm: along, eyeMm, distanceMm });
  const middle = at(0);
  const ribs = Array.from(
    { length: DRIFT_STEPS + 1 },
    (_, step) => (step / DRIFT_STEPS - 0.5) * acrossMm,
  );
  const across = ribs.map((rib) => at(rib) - middle);
  const ends = ribs.map((rib) => at(rib, alongMm / 2) - at(rib));
  return { place: middle + movedZones(job), drift: { across, ends } };
};

export const proofViewOf = (job: Job, tilt: number, bothEyes: boolean): ProofView => {
  const eye = eyeOf(job, tilt);
  const view = { slide: noSlide, blur: seenBlurOf(job, eye) };
  // Under lying ribs both eyes see the same.
  if (!bothEyes || job.ribs === 'lying') return { ...view, ...placesOf(job, eye) };
  const right = placesOf(job, eye + EYES_APART_MM / 2);
  return {
    ...view,
    ...placesOf(job, eye - EYES_APART_MM / 2),
    rightPlace: right.place,
    rightDrift: right.drift,
  };
};
