/** What an undo step is called: by the field that changed, with its old and its new value. */
import { nameInText } from '../../core/names/shown.ts';
import type { Measure } from '../../core/units/measure.ts';
import {
  densityMeasure,
  lengthMeasure,
  percentMeasure,
  pitchMeasure,
  plainMeasure,
} from '../../core/units/measure.ts';
import type { LengthUnit, PitchUnit } from '../../core/units/parse.ts';
import { withMinus } from '../../core/units/format.ts';
import { exactnessOf } from '../facts/plan.ts';
import { gridOf } from '../facts/printer.ts';
import type { Job } from '../schema/job.ts';
import { edgeWords } from './printer.ts';

/** The units that the fields show. */
interface Looks {
  readonly units: LengthUnit;
  readonly pitchUnit: PitchUnit;
}

/** A field's value as a number with its measure, or in words. */
interface Field {
  readonly of: (job: Job) => number | string | undefined;
  readonly measure?: (looks: Looks) => Measure;
  /** Always in view, whichever bench is open. */
  readonly onSheet?: boolean;
}

const length = ({ units }: Looks) => lengthMeasure(units);
const millimetres = () => plainMeasure(1, 3, 'mm');
const lines = () => plainMeasure(0.1, 3, 'LPI');
const bare = () => plainMeasure(1, 4);

/** By the label of the change, which is the field's own in lower case. */
const fields: Readonly<Record<string, Field>> = {
  'job name': { of: ({ name }) => `“${nameInText(name)}”`, onSheet: true },
  'lens pitch': {
    of: ({ lens }) => lens.pitchMm,
    measure: ({ pitchUnit }) => pitchMeasure(pitchUnit),
    onSheet: true,
  },
  'lens thickness': { of: ({ lens }) => lens.thicknessMm, measure: length, onSheet: true },
  'refractive index': { of: ({ lens }) => lens.index, measure: bare, onSheet: true },
  'ribs run': { of: ({ ribs }) => ribs, onSheet: true },
  'dots across': {
    of: (job) => gridOf(job).acrossDpi,
    measure: () => densityMeasure,
    onSheet: true,
  },
  'dots along': {
    of: (job) => gridOf(job).alongDpi,
    measure: () => densityMeasure,
    onSheet: true,
  },
  'along the carriage': {
    of: ({ printer }) => printer.carriageDpi,
    measure: () => densityMeasure,
    onSheet: true,
  },
  'along the feed': {
    of: ({ printer }) => printer.feedDpi,
    measure: () => densityMeasure,
    onSheet: true,
  },
  'fed first': { of: (job) => edgeWords[gridOf(job).fedFirst], onSheet: true },
  'print width': { of: ({ print }) => print.widthMm, measure: length, onSheet: true },
  'print height': { of: ({ print }) => print.heightMm, measure: length, onSheet: true },
  'viewing distance': {
    of: ({ print }) => print.viewingDistanceMm,
    measure: length,
    onSheet: true,
  },
  'view slots': { of: ({ viewSlots }) => viewSlots, measure: bare, onSheet: true },
  'rib radius': { of: ({ lens }) => lens.radiusMm, measure: length },
  'supplier’s angle': {
    of: ({ lens }) => lens.supplierAngleDeg,
    measure: () => plainMeasure(1, 2, '°'),
  },
  'depth gain': { of: ({ depthGain = 1 }) => depthGain, measure: bare },
  'eyes apart': { of: ({ eyesApartMm }) => eyesApartMm, measure: length },
  budget: {
    of: (job) => exactnessOf(job).budgetZones,
    measure: () => plainMeasure(0.01, 3, 'zones'),
  },
  'pitch known to': {
    of: (job) => exactnessOf(job).pitchUnsureLpi,
    measure: () => plainMeasure(0.01, 4, 'LPI'),
  },
  stretch: { of: (job) => exactnessOf(job).stretchShare, measure: () => percentMeasure(0.05) },
  exposure: {
    of: ({ exposureStops }) => exposureStops,
    measure: () => plainMeasure(1, 2, 'stops'),
  },
  softening: { of: ({ soften = 0 }) => soften, measure: () => percentMeasure(1) },
  columns: { of: ({ columns }) => columns },
  'strip centre': { of: ({ pitchStrip }) => pitchStrip?.centreLpi, measure: lines },
  'strip spread': { of: ({ pitchStrip }) => pitchStrip?.spreadLpi, measure: lines },
  'printer margin': { of: ({ pitchStrip }) => pitchStrip?.marginMm, measure: length },
  bleed: { of: ({ page }) => page?.bleedMm, measure: length },
  'sensor width': { of: ({ rig }) => rig?.sensorMm, measure: millimetres },
  'focal length': { of: ({ rig }) => rig?.focalMm, measure: millimetres },
};

/** "lens thickness 0.84 → 0.82 mm"; the label alone where no field has that name, or it had no value. */
export const sayStep = (label: string, before: Job, after: Job, looks: Looks): string => {
  const field = Object.hasOwn(fields, label) ? fields[label] : undefined;
  const measure = field?.measure?.(looks);
  const [was, is] = [before, after].map((job) => {
    const value = field?.of(job);
    return typeof value === 'number' ? withMinus(measure?.format(value) ?? '') : value;
  });
  if (was === undefined || is === undefined || was === is) return label;
  const unit = measure?.unit ?? '';
  return `${label} ${was} → ${is}${/^[°%]?$/.test(unit) ? unit : ` ${unit}`}`;
};

/** Whether a change of this label is seen on the job sheet, whichever bench is open. */
export const isOnJobSheet = (label: string): boolean =>
  Object.hasOwn(fields, label) && fields[label]?.onSheet === true;
