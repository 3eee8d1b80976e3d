/** Reading the strip: the best band, fringes counted in a few, or a photo; then the pitch becomes the job's. */
import { bandLabel } from '../../core/pitch/strip.ts';
import { changeReading } from '../../job/edits/strip.ts';
import type { Job } from '../../job/schema/job.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import { Panel, Prose, SelectField } from '../../ui/index.ts';
import { useChange, useJob } from '../studio.ts';
import { FringeFields } from './FringeFields.tsx';
import { ReadResult } from './ReadResult.tsx';
import { StripPhotoPanel } from './StripPhotoPanel.tsx';
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
      <ReadResult strip={strip} />
    </Panel>
  );
};
