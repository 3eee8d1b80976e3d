/** The third way to read the strip: from a photo of it under the lens. */
import { useState } from 'react';
import type { StripPhotoAnswer } from '../../contract/photo.ts';
import type { PhotoCorners, PhotoReading } from '../../core/pitch/photo/photo.ts';
import { bandLabel } from '../../core/pitch/strip.ts';
import { formatLengthRough, sayLength, sayLengthTo, trimmed } from '../../core/units/format.ts';
import { readLength } from '../../core/units/parse.ts';
import { mm, mmToInch } from '../../core/units/units.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import type { ReadByHand } from '../../state/tasks.ts';
import { readStripFrom } from '../../studio/read/strip-pictures.ts';
import {
  BlankField,
  Button,
  Columns,
  Fields,
  FiguresTable,
  Notice,
  Prose,
  Row,
} from '../../ui/index.ts';
import { looseCorners } from '../desk/CornerFrame.tsx';
import { PictureReading } from '../desk/PictureReading.tsx';
import { useDocument, useStudio, useUnits } from '../studio.ts';
import { PhotoCanvas } from './PhotoCanvas.tsx';
import { SkewNote } from './SkewNote.tsx';
import { useStripPhoto } from './use-strip-photo.ts';
import styles from './calibrate.module.css';

type GoodReading = Extract<PhotoReading, { ok: true }>;

const GoodPhoto = () => (
  <Columns as="ul" least={9} gap={3} className={styles['goodPhoto']}>
    <li>
      <svg viewBox="0 0 120 80" aria-hidden="true">
        <path d="M25 62h70v10h-70zM60 62V28M48 12h24v16h-24zM56 20h8" />
      </svg>
      Straight on, from the reading distance.
    </li>
    <li>
      <svg viewBox="0 0 120 80" aria-hidden="true">
        <path d="M10 6h100v68h-100zM22 16h76v48h-76zM22 24v-8h8M98 24v-8h-8M22 56v8h8M98 56v8h-8" />
      </svg>
      The whole strip, all four corner marks, nearly filling the picture.
    </li>
    <li>
      <svg viewBox="0 0 120 80" aria-hidden="true">
        <path d="M66 8 44 44h16l-8 28 26-38H62zM24 10l72 62" />
      </svg>
      Even daylight, no flash, no window mirrored in the lens.
    </li>
  </Columns>
);

/** What the one pitch makes of the phase strip, which is woven at the middle band's pitch. */
const phaseFitted = ({ bandsLpi, acrossMm }: WovenStrip, pitchLpi: number): number =>
  ((bandsLpi[(bandsLpi.length - 1) / 2] as number) - pitchLpi) * mmToInch(mm(acrossMm));

type Fit = Pick<GoodReading['bands'][number], 'fringes' | 'sigma' | 'used' | 'why'>;
const rowOf = (label: string, fit: Fit, fitted: number) => [
  label,
  trimmed(fit.fringes, 3),
  trimmed(2 * fit.sigma, 3),
  trimmed(fitted, 3),
  trimmed(fit.fringes - fitted, 3),
  fit.used ? 'yes' : `no${fit.why === undefined ? '' : `: ${fit.why}`}`,
];

interface BandsProps {
  readonly reading: GoodReading;
  readonly strip: WovenStrip;
}

const Bands = ({ reading, strip }: BandsProps) => (
  <FiguresTable
    caption="Fringes measured and fitted"
    head={['Band, LPI', 'Measured', '±', 'Fitted', 'Left over', 'Used']}
    rows={[
      ...reading.bands.map((fit) => rowOf(bandLabel(fit.bandLpi), fit, fit.fittedFringes)),
      ...(reading.phase === undefined
        ? []
        : [rowOf('Phase strip', reading.phase, phaseFitted(strip, reading.pitchLpi))]),
    ]}
  />
);

const cameraFrom = {
  typed: 'as typed',
  perspective: 'from the perspective',
  assumed: 'taken to be the reading distance',
} as const;

const Told = ({ reading }: { readonly reading: PhotoReading }) => {
  const units = useUnits();
  return reading.ok ? (
    <>
      <p>
        The camera stood {sayLengthTo(reading.cameraMm, units, 0)} away,{' '}
        {cameraFrom[reading.cameraFrom]}.
      </p>
      <SkewNote skewRad={reading.skewRad} plusMinusRad={2 * reading.skewSigmaRad} />
      {reading.cautions.map((caution) => (
        <Notice key={caution} kind="caution">
          {caution}
        </Notice>
      ))}
    </>
  ) : (
    <Notice kind="problem" title={reading.sentence} announce>
      <p>{reading.whatToDo}</p>
    </Notice>
  );
};

interface ReadProps {
  readonly file: File;
  readonly answer: StripPhotoAnswer;
  readonly byHand: ReadByHand;
  readonly strip: WovenStrip;
}

const ReadPhoto = ({ file, answer, byHand, strip }: ReadProps) => {
  const studio = useStudio();
  const jobId = useDocument((state) => state.jobId);
  const units = useUnits();
  const { reading, widthPx, heightPx } = answer;
  const found = byHand.corners ?? (reading.ok ? reading.cornersFound : reading.corners);
  const [moved, setMoved] = useState<PhotoCorners>();
  const cameraMm = byHand.readAtMm;
  const corners = moved ?? found ?? looseCorners(widthPx, heightPx);
  const again = (readAtMm: number | undefined) =>
    void readStripFrom(studio, file, strip, { corners: moved ?? byHand.corners, readAtMm });
  return (
    <>
      <PhotoCanvas
        file={file}
        widthPx={widthPx}
        heightPx={heightPx}
        corners={corners}
        bands={reading.ok && moved === undefined ? reading.bands : []}
        phase={reading.ok && moved === undefined ? reading.phase : undefined}
        ribs={strip.ribs}
        onCorners={setMoved}
      />
      <Told reading={reading} />
      {reading.ok && (
        <>
          <Prose>
            Over each band, from its middle: full ticks are half fringes as measured, dashed ones as
            the one pitch makes them. The bar below is what is left over, the thin line its ±; the
            band’s whole width is one fringe. The phase strip checks the bands and is not in the
            fit.
          </Prose>
          <Bands reading={reading} strip={strip} />
        </>
      )}
      <Fields least={11}>
        <BlankField
          label="Camera distance"
          unit={units}
          value={
            cameraMm === undefined ? '' : trimmed(units === 'in' ? cameraMm / 25.4 : cameraMm, 2)
          }
          hint="From the strip to the camera. Left empty, the perspective tells it, less surely."
          onCommit={(text) => {
            if (text === '') {
              again(undefined);
              return undefined;
            }
            const read = readLength(text, units);
            if (!read.ok) return read.message;
            if (!(read.value >= 50 && read.value <= 5000))
              return `A camera stands ${formatLengthRough(mm(50), units)} to ${sayLength(5000, units)} from the strip.`;
            again(read.value);
            return undefined;
          }}
        />
      </Fields>
      <Row gap="2 4">
        <Button off={moved === undefined} onClick={() => again(cameraMm)}>
          Read with these corners
        </Button>
        <Button onClick={() => studio.tasks.tell(jobId, 'stripPhoto', { stage: 'idle' })}>
          Put the photo away
        </Button>
      </Row>
    </>
  );
};

export const StripPhotoPanel = ({ strip }: { readonly strip: WovenStrip }) => {
  const studio = useStudio();
  const { photo, isOther } = useStripPhoto(strip);
  return (
    <details className={styles['fringes']} open={photo.stage !== 'idle' || undefined}>
      <summary>Or photograph it</summary>
      <p>
        Lay the lens on the bands, ribs along the lines, and photograph it. The photo stays on this
        machine.
      </p>
      <GoodPhoto />
      <PictureReading kind="stripPhoto" onFile={(file) => void readStripFrom(studio, file, strip)}>
        {photo.stage === 'read' && isOther && (
          <Notice kind="info">
            <p>That photo was read as another strip, or for another lens.</p>
            <Button onClick={() => void readStripFrom(studio, photo.file, strip, photo.byHand)}>
              Read it again for this one
            </Button>
          </Notice>
        )}
        {photo.stage === 'read' && !isOther && (
          <ReadPhoto
            file={photo.file}
            answer={photo.answer}
            byHand={photo.byHand ?? {}}
            strip={strip}
          />
        )}
      </PictureReading>
    </details>
  );
};
