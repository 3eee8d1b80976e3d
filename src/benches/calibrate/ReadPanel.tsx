/** Reading the strip: the best band, or fringes counted in a few; then the pitch becomes the job's. */
import { useState } from 'react';
import { bandsToCount } from '../../core/pitch/read-fringes.ts';
import type { PitchReading } from '../../core/pitch/reading.ts';
import { bandLabel } from '../../core/pitch/strip.ts';
import { isoDay } from '../../core/units/day.ts';
import { sayDoubted, sayLength, sayLengthTo, trimmed } from '../../core/units/format.ts';
import { lpi, lpiToMm, mm, mmToInch } from '../../core/units/units.ts';
import { centreStrip, changeReading } from '../../job/edits/strip.ts';
import { pitchBudget, prove, scaleOf, wovenFits } from '../../job/facts/pitch.ts';
import { stripReadingOf } from '../../job/facts/strip-readings.ts';
import type { Job } from '../../job/schema/job.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import { Button, Figure, Notice, Panel, Prose, SelectField } from '../../ui/index.ts';
import { useChange, useJob, useStudio, useUnits } from '../studio.ts';
import { FringeFields } from './FringeFields.tsx';
import { StripPhotoPanel } from './StripPhotoPanel.tsx';
import { useStripPhoto } from './use-strip-photo.ts';
import { useStripToRead } from './use-strip-to-read.ts';

const NONE = '';

/** Every band, and between each two of them a place for "neither, but between". */
const placesOf = ({ bandsLpi }: WovenStrip) => [
  { value: NONE, label: 'Not read yet' },
  ...bandsLpi.flatMap((bandLpi, band) => {
    const next = bandsLpi[band + 1];
    const own = { value: String(band * 2), label: bandLabel(bandLpi) };
    if (next === undefined) return [own];
    const between = `between ${bandLabel(bandLpi)} and ${bandLabel(next)}`;
    return [own, { value: String(band * 2 + 1), label: between }];
  }),
];

const BestBand = ({ strip }: { readonly strip: WovenStrip }) => {
  const change = useChange();
  const place = useJob().pitchStrip?.bestPlace;
  return (
    <SelectField
      label="Best band"
      choices={placesOf(strip)}
      value={place === undefined ? NONE : String(place)}
      onChange={(value) =>
        void change(
          ...changeReading('best band', strip, {
            bestPlace: value === NONE ? undefined : Number(value),
          }),
        )
      }
    />
  );
};

const CentreHere = ({ viewingLpi }: { readonly viewingLpi: number }) => {
  const change = useChange();
  return (
    <Button onClick={() => void change(...centreStrip('strip centre', viewingLpi))}>
      Centre the next strip here
    </Button>
  );
};

const AtEnd = ({ reading }: { readonly reading: PitchReading }) => (
  <Notice kind="caution" title="That is the outermost band">
    <p>
      The true pitch may lie beyond it. Count fringes in a few bands instead, or weave another strip
      round this one.
    </p>
    <p>
      <CentreHere viewingLpi={reading.viewingLpi} />
    </p>
  </Notice>
);

const useProve = () => {
  const studio = useStudio();
  const change = useChange();
  const [told, setTold] = useState<string>();
  const use = async (strip: WovenStrip, reading: PitchReading) => {
    const refused = change('proved pitch', (job) => prove(job, strip, reading, isoDay(new Date())));
    if (refused !== undefined) return setTold(refused);
    const notKept = await studio.pitches.remember(studio.document.getState().job);
    setTold(
      notKept ??
        `${trimmed(reading.viewingLpi, 3)} LPI is on the job sheet. The next sheet is woven with it.`,
    );
  };
  return { told, use };
};

const Result = ({ strip }: { readonly strip: WovenStrip }) => {
  const job = useJob();
  const { told, use } = useProve();
  const reading = stripReadingOf(job, strip, useStripPhoto(strip).reading);
  const { across, along } = scaleOf(job, strip);
  const wrongScale = across?.right === false || along?.right === false;
  const fits = wovenFits(job, strip);
  return (
    <>
      {reading?.atEnd === true && <AtEnd reading={reading} />}
      {reading !== undefined && <ReadingFigure strip={strip} reading={reading} />}
      {wrongScale && (
        <Prose large tone="problem">
          Put the scale right first: this strip was printed at the wrong size.
        </Prose>
      )}
      {!fits && (
        <Prose large tone="problem">
          Lens pitch, dots or the way the ribs run have changed since this strip: weave another.
        </Prose>
      )}
      <div>
        <Button
          look="primary"
          off={reading === undefined || wrongScale || !fits}
          onClick={() => {
            if (reading !== undefined) void use(strip, reading);
          }}
        >
          Use this pitch
        </Button>
      </div>
      <p role="status">{told}</p>
    </>
  );
};

const methods = {
  band: {
    label: 'Woven pitch, by the band',
    relation: '± = 2 √(τ² / 6 W² + step² / 12), τ a quarter zone',
    number: 7,
  },
  fringes: {
    label: 'Woven pitch, by fringes',
    relation: 'LPI = mean of LPI_band ± fringes / W, ± = 2 σ / (W √bands)',
    number: 9,
  },
  photo: {
    label: 'Woven pitch, by the photo',
    relation: 'fringes_band = (LPI_band − LPI) W, one LPI and one skew for all bands, ± = 2 σ',
    number: 9,
  },
} as const;

const ReadingFigure = ({
  strip,
  reading,
}: {
  readonly strip: WovenStrip;
  readonly reading: PitchReading;
}) => {
  const job = useJob();
  const units = useUnits();
  const allowed = pitchBudget(job);
  const shown = methods[reading.method];
  const enough = reading.plusMinusLpi <= allowed * 1.005;
  return (
    <div>
      <Figure
        label={shown.label}
        value={`${sayDoubted({ value: reading.viewingLpi, plusMinus: reading.plusMinusLpi }, 3)} LPI`}
        relation={shown.relation}
        relationNumber={shown.number}
      >
        {sayLengthTo(lpiToMm(lpi(reading.viewingLpi)), units, 5)}, read from{' '}
        {sayLength(strip.readFromMm, units)}. Nineteen readings in twenty fall within the ±.
      </Figure>
      <Prose>
        {enough
          ? `Exact enough: this print allows ±${trimmed(allowed, 3)} LPI.`
          : `This print needs ±${trimmed(allowed, 3)} LPI: ${countMore(job, strip)}`}
      </Prose>
    </div>
  );
};

/** What to do about a reading that is not exact enough. */
const countMore = (job: Job, strip: WovenStrip): string => {
  const wanted = bandsToCount(mmToInch(mm(strip.acrossMm)), pitchBudget(job));
  const most = strip.bandsLpi.length;
  const bands = wanted >= most ? `all ${most} bands` : `${wanted} bands`;
  return wanted > most
    ? `count fringes in ${bands}, and if that is not enough use it and weave a finer strip.`
    : `count fringes in ${bands}, spread over the strip.`;
};

const whichStrip = ({ pitchStrip }: Job): string => {
  const woven = pitchStrip?.woven;
  if (woven === undefined) return ', as the fields have it.';
  return woven.assumed === true
    ? ', the strip as the job stood when this was entered: none has been woven here yet. To read another, weave it first.'
    : `, the strip of ${woven.wovenOn}. To read another, weave it first.`;
};

export const ReadPanel = () => {
  const job = useJob();
  const strip = useStripToRead();
  if (strip === undefined) return null;
  return (
    <Panel step={4} title="Read the strip">
      <Prose>
        {strip.bandsLpi.length} bands from {bandLabel(strip.bandsLpi[0] as number)} to{' '}
        {bandLabel(strip.bandsLpi.at(-1) as number)} LPI
        {whichStrip(job)}
      </Prose>
      <BestBand strip={strip} />
      <FringeFields strip={strip} />
      <StripPhotoPanel strip={strip} />
      <Result strip={strip} />
    </Panel>
  );
};
