/** What the strip says, by the reading that counts, and what to do about it. */
import { useState } from 'react';
import type { PitchReading } from '../../core/pitch/reading.ts';
import { spoils } from '../../core/pitch/scale.ts';
import { isoDay } from '../../core/units/day.ts';
import { sayDoubted, sayLength, sayLengthTo, trimmed } from '../../core/units/format.ts';
import { lpi, lpiToMm, mm, mmToLpi } from '../../core/units/units.ts';
import { centreStrip, changeReading } from '../../job/edits/strip.ts';
import { pitchBudget, prove, scaleOf } from '../../job/facts/pitch.ts';
import { sayUnfit } from '../../job/words/strip-fit.ts';
import { lensByBar } from '../../job/facts/strip-lens.ts';
import type { StripReading } from '../../job/facts/strip-readings.ts';
import { stripReadingsOf } from '../../job/facts/strip-readings.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import type { WhichReading } from '../../studio/read/which-reading.ts';
import { adviceOn, whichReading } from '../../studio/read/which-reading.ts';
import { Button, Figure, Notice, Prose, SelectField } from '../../ui/index.ts';
import { useChange, useJob, useStudio, useUnits } from '../studio.ts';
import { useStripPhoto } from './use-strip-photo.ts';

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

const methods = {
  band: {
    label: 'Woven pitch, by the band',
    choice: 'the best band',
    relation: '± = 2 √(τ² / 6 W² + step² / 12), τ a quarter zone',
    number: 7,
  },
  fringes: {
    label: 'Woven pitch, by fringes',
    choice: 'counted fringes',
    relation: 'LPI = mean of LPI_band ± fringes / W, ± = t σ / (W √bands), t Student’s 95 %',
    number: 9,
  },
  photo: {
    label: 'Woven pitch, by the photo',
    choice: 'the photo',
    relation: 'fringes_band = (LPI_band − LPI) W, one LPI and one skew for all bands, ± = 2 σ',
    number: 9,
  },
} as const;

const sayPitch = ({ viewingLpi, plusMinusLpi }: PitchReading): string =>
  `${sayDoubted({ value: viewingLpi, plusMinus: plusMinusLpi }, 3)} LPI`;

const BY_ITSELF = 'exact';

/** Where the strip was read in more than one way. */
const GoBy = ({ which, strip }: { readonly which: WhichReading; readonly strip: WovenStrip }) => {
  const change = useChange();
  const readBy = useJob().pitchStrip?.readBy;
  const { taken, others, against } = which;
  if (others.length === 0) return null;
  const choices = [taken, ...others].map((one) => ({
    value: one.method,
    label: `${methods[one.method].choice}: ${sayPitch(one)}`,
  }));
  return (
    <>
      <SelectField
        label="Go by"
        choices={[{ value: BY_ITSELF, label: 'the most exact reading' }, ...choices]}
        value={choices.some(({ value }) => value === readBy) && readBy ? readBy : BY_ITSELF}
        onChange={(value) =>
          void change(
            ...changeReading('way of reading', strip, {
              readBy: value === BY_ITSELF ? undefined : value,
            }),
          )
        }
      />
      {against.length > 0 && (
        <Notice kind="caution" title="The readings contradict each other">
          <p>
            {methods[taken.method].label.split(', ')[1]} it is {sayPitch(taken)},{' '}
            {against
              .map((one) => `${methods[one.method].label.split(', ')[1]} ${sayPitch(one)}`)
              .join(', ')}
            . One of them is wrong: check the lens on the strip and read it again.
          </p>
        </Notice>
      )}
    </>
  );
};

export const ReadResult = ({ strip }: { readonly strip: WovenStrip }) => {
  const job = useJob();
  const { told, use } = useProve();
  const readings = stripReadingsOf(job, strip, useStripPhoto(strip).reading);
  const which = whichReading(readings, job.pitchStrip?.readBy);
  const reading = which?.taken;
  const wrongScale = spoils(scaleOf(job, strip));
  const unfit = sayUnfit(job, strip);
  return (
    <>
      {reading?.atEnd === true && <AtEnd reading={reading} />}
      {which !== undefined && <GoBy which={which} strip={strip} />}
      {reading !== undefined && <ReadingFigure strip={strip} reading={reading} />}
      {wrongScale && (
        <Prose large tone="problem">
          Put the scale right first: this strip was printed at the wrong size.
        </Prose>
      )}
      {unfit !== undefined && (
        <Prose large tone="problem">
          {unfit}
        </Prose>
      )}
      <div>
        <Button
          look="primary"
          off={reading === undefined || wrongScale || unfit !== undefined}
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

const ReadingFigure = ({
  strip,
  reading,
}: {
  readonly strip: WovenStrip;
  readonly reading: StripReading;
}) => {
  const job = useJob();
  const units = useUnits();
  const shown = methods[reading.method];
  const lens = lensByBar(job, strip, reading);
  return (
    <div>
      <Figure
        label={shown.label}
        value={sayPitch(reading)}
        relation={shown.relation}
        relationNumber={shown.number}
      >
        {sayLengthTo(lpiToMm(lpi(reading.viewingLpi)), units, 5)}, read from{' '}
        {sayLength(strip.readFromMm, units)}. Nineteen readings in twenty fall within the ±.
      </Figure>
      <Prose>{adviceOn(reading, strip, pitchBudget(job))}</Prose>
      {lens !== undefined && (
        <Prose>
          By its bar across, the lens itself has {sayDoubted(lens, 2)} lines to the true inch; the
          job names {trimmed(mmToLpi(mm(job.lens.pitchMm)), 2)}. The rest is stretch of the print,
          which the reading contains.
        </Prose>
      )}
    </div>
  );
};
