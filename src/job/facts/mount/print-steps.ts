/** The steps of printing, drying and cleaning. */
import type { SheetFileType } from '../../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../../core/encode/file-types.ts';
import { slideFromError } from '../../../core/plan/tolerance.ts';
import { formatDensity, trimmed } from '../../../core/units/format.ts';
import { dpi, lpi } from '../../../core/units/units.ts';
import type { Job } from '../../schema/job.ts';
import type { MountNumbers } from './numbers.ts';
import type { PlainStep } from './step.ts';
import { isPitchProvedEnough } from './step-ids.ts';
import { exactnessOf } from '../plan.ts';
import { acrossMm } from '../sheet.ts';
import { gridOf } from '../printer.ts';
import { edgeWords } from '../../words/printer.ts';

const proving = (job: Job, { pitchExact }: MountNumbers): PlainStep[] => {
  const plusMinus = job.provedPitch?.plusMinusLpi;
  const isNominal = job.provedPitch === undefined;
  if (isPitchProvedEnough(job)) return [];
  const unsure = isNominal ? exactnessOf(job).pitchUnsureLpi : (plusMinus as number);
  const slides = trimmed(slideFromError(lpi(unsure), acrossMm(job)), 2);
  return [
    {
      id: 'prove-pitch',
      stage: 'Print',
      isWarning: true,
      title: isNominal ? 'Prove the pitch first.' : 'Prove the pitch more finely.',
      text: isNominal
        ? `It is nominal; this print needs ${pitchExact}. Read a pitch strip on Calibrate, then weave again.`
        : `It is proved to ±${trimmed(unsure, 3)} LPI; this print needs ${pitchExact}. Read a finer strip on Calibrate, then weave again.`,
      why: `Known to ±${trimmed(unsure, 3)} LPI, the picture may slide by ${slides} of a zone from edge to edge.`,
    },
  ];
};

const paperOf = ({ provedPitch }: Job): string => {
  if (provedPitch === undefined)
    return 'Load the paper on which you will prove the pitch, from the same pack.';
  const read = provedPitch.readOn === undefined ? '' : ` read on ${provedPitch.readOn}`;
  const which = provedPitch.paper ?? 'the same paper';
  return `Load ${which}, as for the strip${read}. Set the driver to the same kind of paper.`;
};

const driver = (job: Job, numbers: MountNumbers, fileType: SheetFileType): PlainStep[] => {
  const { acrossDpi, alongDpi, fedFirst } = gridOf(job);
  const [acrossDots, alongDots] = [formatDensity(dpi(acrossDpi)), formatDensity(dpi(alongDpi))];
  const { label } = sheetFileTypes[fileType];
  const isProved = job.provedPitch !== undefined;
  const { carriageDpi, feedDpi } = job.printer;
  const isSquare = acrossDpi === alongDpi;
  const own = `${formatDensity(dpi(carriageDpi))} dpi along the carriage and ${formatDensity(dpi(feedDpi))} along the feed`;
  return [
    {
      id: 'grid',
      stage: 'Print',
      title: 'The printer’s own grid.',
      text: `Set ${isSquare ? '' : `${own}: with the page laid as below, that is `}${acrossDots} dpi across the ribs (${numbers.across}) and ${alongDots} along them (${numbers.along}).`,
      why: `On another grid the driver invents dots, and a view slot is only ${numbers.slot} wide.`,
    },
    {
      id: 'no-scaling',
      stage: 'Print',
      title: 'No scaling.',
      text: sheetFileTypes[fileType].isPage
        ? 'Print the PDF at actual size, 100 %: no fit to page, no shrinking to margins, no borderless enlarging.'
        : `Print the ${label} at its own size, 100 %: no fit to page, no fill, no borderless enlarging.${
            isSquare ? '' : ' Its dots are not square: both sides must come out.'
          }`,
      why: `The pitch scales with the picture, and this print allows only ${numbers.pitchExact}.`,
    },
    {
      id: 'no-enhancement',
      stage: 'Print',
      title: 'No enhancement.',
      text: 'Switch off sharpening, smoothing, noise reduction and every automatic improvement of the picture.',
      why: `They take the ${job.viewSlots} lines under a rib for a picture and spread them into each other: that is ghosting.`,
    },
    {
      id: 'one-direction',
      stage: 'Print',
      title: 'One direction.',
      text: 'Switch off bidirectional and high-speed printing; choose the best quality.',
      why: `Lines printed there and back do not meet exactly; a dot is ${numbers.dot}, a view slot ${numbers.slot}.`,
    },
    {
      id: 'way-round',
      stage: 'Print',
      title: `The page goes in with ${fedFirst === 'top' ? 'its top edge' : edgeWords.side} first.`,
      text: `${
        fedFirst === 'top'
          ? ''
          : 'The file stands upright: let the driver turn it by a quarter, always the same way (many call that Landscape). '
      }${
        isProved
          ? 'So did the strip, with the same side up; let nothing turn the sheet to fit.'
          : 'The strip must go in alike; let nothing turn the sheet to fit.'
      } If your ${numbers.mirrored ? 'film' : 'paper'} cannot go in so, choose the other edge as Fed first on the job sheet.${numbers.mirrored ? ' The file is mirrored already: leave mirror printing in the driver off, and check that the print reads right through the film.' : ''}`,
      why: 'Along the feed paper is stretched otherwise than across it, so a sheet turned by a quarter has another pitch.',
    },
  ];
};

const after = (numbers: MountNumbers): PlainStep[] => [
  {
    id: 'measure',
    stage: 'Print',
    title: 'Measure it.',
    text: `${numbers.hasMarks ? 'Between the crop marks' : 'The picture'}, across the ribs: ${numbers.acrossPrinted}, within ${numbers.sizeExact}${numbers.stripCameOut === undefined ? '' : `; the strip came out at ${numbers.stripCameOut} too`}. If not, it was scaled: print again.`,
    why: `${numbers.stripCameOut === undefined ? '' : 'The proved pitch contains the strip’s stretch, so the print has to come out as the strip did. '}A rule catches gross scaling only. A stretch of ${numbers.stretch} already slides the picture by ${numbers.stretchSlides} of a zone from edge to edge: the pitch strip tells the rest.`,
  },
  {
    id: 'dry',
    stage: 'Dry and clean',
    title: 'Let it dry before any adhesive.',
    text: 'Flat, printed side up, uncovered, as long as the suppliers of ink and paper say. Ask them; a day is common practice, no source.',
    why: `Damp ink keeps adhesive from holding, and damp paper is longer: ${numbers.pitchExact} is all this print allows.`,
  },
  {
    id: 'clean',
    stage: 'Dry and clean',
    title: 'Clean.',
    text: `Wipe ${numbers.mirrored ? 'the bare side of the film' : 'print'} and smooth side of the lens free of dust, dry and lint-free; a cleaner only if the lens’s data sheet allows it.`,
    why: `A speck lifts the lens off the print, and around it several ribs of ${numbers.rib} lose their focus.`,
    cautions: ['adhesives'],
  },
];

export const printSteps = (
  job: Job,
  numbers: MountNumbers,
  fileType: SheetFileType,
): readonly PlainStep[] => [
  ...proving(job, numbers),
  {
    id: 'paper',
    stage: 'Print',
    title: job.provedPitch === undefined ? 'One kind of paper.' : 'The paper of the strip.',
    text: paperOf(job),
    why: 'Each paper stretches and takes up ink in its own way; a proved pitch holds for one of them.',
  },
  ...driver(job, numbers, fileType),
  ...after(numbers),
];
