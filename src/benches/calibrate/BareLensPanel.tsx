/** The lens alone, on a flatbed: its pitch by spectrum, to centre the strip on. */
import { useState } from 'react';
import type { LensScanAnswer } from '../../contract/photo.ts';
import { gapAhead } from '../../core/lens/traced.ts';
import type { BareLensReading } from '../../core/pitch/bare/bare-lens.ts';
import { readBareLens } from '../../core/pitch/bare/bare-lens.ts';
import type { ScanLine } from '../../core/pitch/bare/scan.ts';
import { sayDoubted, sayLengthTo, trimmed } from '../../core/units/format.ts';
import type { Reading } from '../../core/units/parse.ts';
import { readDensity, readLength, readNumber } from '../../core/units/parse.ts';
import { mm, mmToLpi } from '../../core/units/units.ts';
import { centreStrip } from '../../job/edits/strip.ts';
import { readFromOf } from '../../job/facts/pitch.ts';
import { lensOf } from '../../job/facts/sheet.ts';
import { readScanFrom } from '../../studio/read/strip-pictures.ts';
import {
  BlankField,
  Button,
  Fields,
  Figure,
  FiguresTable,
  Name,
  Notice,
  Panel,
  Prose,
} from '../../ui/index.ts';
import { CautionNotes } from '../desk/CautionNotes.tsx';
import { PictureReading } from '../desk/PictureReading.tsx';
import { useChange, useJob, useStudio, useTask, useUnits } from '../studio.ts';
import styles from './calibrate.module.css';

const [WIDE, HIGH, FOOT, FLOOR_DB] = [600, 160, 26, -70] as const;

/** The spectrum, up to three times the ribs' own frequency or the end. */
const Spectrum = ({ line, ribPerPx }: { readonly line: ScanLine; readonly ribPerPx: number }) => {
  const most = Math.min(0.5, ribPerPx * 3.4);
  const shown = line.spectrum.filter(([perPx]) => perPx <= most);
  const x = (perPx: number) => (perPx / most) * WIDE;
  const y = (decibels: number) => (Math.max(FLOOR_DB, decibels) / FLOOR_DB) * HIGH;
  const path = shown.map(
    ([f, d], i) => `${i === 0 ? 'M' : 'L'}${x(f).toFixed(1)} ${y(d).toFixed(1)}`,
  );
  return (
    <>
      <svg
        className={styles['spectrum']}
        viewBox={`0 0 ${WIDE} ${HIGH + FOOT}`}
        role="img"
        aria-label={`Spectrum of the scan; the ribs stand at ${trimmed(ribPerPx, 4)} cycles to the pixel`}
      >
        <line className={styles['ribMark']} x1={x(ribPerPx)} x2={x(ribPerPx)} y1="0" y2={HIGH} />
        <path className={styles['trace']} d={path.join('')} />
        <line className={styles['axis']} x1="0" x2={WIDE} y1={HIGH} y2={HIGH} />
        <text x={Math.min(x(ribPerPx), WIDE - 60)} y={HIGH + 20} textAnchor="middle">
          the ribs
        </text>
      </svg>
      <FiguresTable
        caption="The spectrum in figures"
        head={['Line', 'Cycles to the pixel', 'Of the strongest', 'Over the noise']}
        rows={line.harmonics.map(({ divisor, share, overNoise }) => [
          divisor === 1 ? 'Strongest' : `Its ${divisor === 2 ? 'half' : 'third'}`,
          trimmed(Math.hypot(line.perPxX, line.perPxY) / divisor, 5),
          `${trimmed(share * 100, 1)} %`,
          `${trimmed(overNoise, 1)} times`,
        ])}
      />
    </>
  );
};

const Result = ({
  line,
  reading,
}: {
  readonly line: ScanLine;
  readonly reading: Extract<BareLensReading, { ok: true }>;
}) => {
  const change = useChange();
  const job = useJob();
  const units = useUnits();
  const [told, setTold] = useState<string>();
  const from = readFromOf(job);
  const centreLpi = mmToLpi(mm(reading.pitchMm * (1 + gapAhead(lensOf(job)) / from)));
  const useIt = () =>
    setTold(
      change(...centreStrip('strip centre from a scan', centreLpi)) ??
        `Strip centre is ${trimmed(centreLpi, 3)} LPI.`,
    );
  return (
    <>
      <Figure
        label="Lens pitch, by the scan"
        value={`${sayDoubted({ value: reading.lensLpi, plusMinus: reading.plusMinusLpi }, 3)} LPI`}
        relation={`± = √(${trimmed(reading.fromRibsLpi, 4)}² + ${trimmed(reading.fromScaleLpi, 4)}²) LPI`}
      >
        {sayLengthTo(reading.pitchMm, units, 5)}. The first part of the ± is from how evenly the
        ribs keep step, the second from the scanner’s own scale
        {reading.ruled
          ? ', by the ruler.'
          : ': up to two in a thousand is common (no source). A ruler in the same scan narrows it.'}
      </Figure>
      <Figure
        label="Strip centre for it"
        value={`${trimmed(centreLpi, 3)} LPI`}
        relation={`LPI_v = LPI / (1 + g₀ / D) = ${trimmed(reading.lensLpi, 3)} / (1 + ${trimmed(gapAhead(lensOf(job)), 4)} / ${trimmed(from, 0)})`}
        relationNumber={2}
      >
        The woven pitch at the strip’s reading distance. What paper, ink and driver do to the print
        is not in it: the pitch strip measures that.
      </Figure>
      <Prose>
        {trimmed(reading.pxToRib, 2)} pixels a rib; the ribs stand{' '}
        {trimmed((reading.tiltRad * 180) / Math.PI, 2)}° askew in the scan; the pitch takes that
        into account. {reading.cautions.join(' ')}
      </Prose>
      <Spectrum line={line} ribPerPx={Math.hypot(line.perPxX, line.perPxY) / reading.linesToRib} />
      <div>
        <Button look="primary" onClick={useIt}>
          Centre the strip on it
        </Button>
      </div>
      <p role="status">{told}</p>
    </>
  );
};

/** What was typed beside the scan; it lasts as long as the panel. */
const useTyped = () => {
  const [dpi, setDpi] = useState<number>();
  const [rulerMm, setRulerMm] = useState<number>();
  const [rulerPx, setRulerPx] = useState<number>();
  return { dpi, setDpi, rulerMm, setRulerMm, rulerPx, setRulerPx };
};

const Measured = ({ answer }: { readonly answer: LensScanAnswer }) => {
  const job = useJob();
  const units = useUnits();
  const typed = useTyped();
  const { measure } = answer;
  if (!measure.ok)
    return (
      <Notice kind="problem" title={measure.sentence} announce>
        {measure.whatToDo}
      </Notice>
    );
  const density =
    typed.dpi === undefined ? answer.density : { acrossDpi: typed.dpi, downDpi: typed.dpi };
  const ruler =
    typed.rulerMm === undefined || typed.rulerPx === undefined
      ? undefined
      : { trueMm: typed.rulerMm, scanPx: typed.rulerPx };
  const take =
    (set: (value: number | undefined) => void, read: (text: string) => Reading<number>) =>
    (text: string): string | undefined => {
      if (text === '') {
        set(undefined);
        return undefined;
      }
      const value = read(text);
      if (!value.ok) return value.message;
      if (!(value.value > 0)) return 'Type a number above 0.';
      set(value.value);
      return undefined;
    };
  const reading =
    density === undefined
      ? undefined
      : readBareLens(measure.line, { density, nominalLpi: mmToLpi(mm(job.lens.pitchMm)), ruler });
  return (
    <>
      <Fields least={11}>
        <BlankField
          label="Scan density"
          unit="dpi"
          value={density === undefined ? '' : trimmed(density.acrossDpi, 2)}
          hint={
            answer.density === undefined
              ? 'The file does not say. Type what the scanner was set to.'
              : typed.dpi === undefined
                ? 'As the file says.'
                : `The file says ${trimmed(answer.density.acrossDpi, 2)}.`
          }
          onCommit={take(typed.setDpi, readDensity)}
        />
        <BlankField
          label="Ruler in the scan"
          unit={units}
          value={
            typed.rulerMm === undefined
              ? ''
              : trimmed(typed.rulerMm / (units === 'in' ? 25.4 : 1), 3)
          }
          hint="If you scanned one, lying across the ribs: a stretch of it."
          onCommit={take(typed.setRulerMm, (text) => readLength(text, units))}
        />
        <BlankField
          label="That stretch in pixels"
          unit="px"
          value={typed.rulerPx === undefined ? '' : trimmed(typed.rulerPx, 1)}
          hint="As a picture program measures it."
          onCommit={take(typed.setRulerPx, readNumber)}
        />
      </Fields>
      {reading === undefined && (
        <Prose large tone="problem">
          Type the Scan density.
        </Prose>
      )}
      {reading?.ok === false && (
        <Notice kind="problem" title={reading.sentence} announce>
          {reading.whatToDo}
        </Notice>
      )}
      {reading?.ok === true && <Result line={measure.line} reading={reading} />}
    </>
  );
};

export const BareLensPanel = () => {
  const studio = useStudio();
  const scan = useTask('lensScan');
  return (
    <Panel title="Bare lens">
      <p>
        No strip yet? A flatbed scan of the lens tells its own pitch, as a place to start from. Lay
        it ribs down on the glass, about straight, plain paper behind it; 600 dpi or more, no
        sharpening, no “descreen”. The scan stays on this machine.
      </p>
      <CautionNotes kinds={['edges']} />
      <PictureReading kind="lensScan" onFile={(file) => void readScanFrom(studio, file)}>
        {scan.stage === 'read' && (
          <>
            <Prose>
              <Name>{scan.file.name}</Name>, {scan.answer.widthPx} × {scan.answer.heightPx} pixels
            </Prose>
            <Measured key={`${scan.file.name} ${scan.file.lastModified}`} answer={scan.answer} />
          </>
        )}
      </PictureReading>
    </Panel>
  );
};
