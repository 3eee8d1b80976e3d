/** How exact pitch and squareness must be, against the size of the print. */
import { tolerance, widestFor } from '../../../core/plan/tolerance.ts';
import { formatLengthRough, trimmed } from '../../../core/units/format.ts';
import { inch, inchToMm, lpi, mm, mmToInch, radToDeg } from '../../../core/units/units.ts';
import { alongMm, exactnessOf, toleranceOf } from '../../../job/facts/plan.ts';
import { acrossMm, lensOf } from '../../../job/facts/sheet.ts';
import { useJob, useUnits } from '../../studio.ts';
import { Columns, FiguresTable, Prose } from '../../../ui/index.ts';
import { line, Plot, ratioAxis, roundSteps } from '../../../ui/plot/index.ts';
import styles from './exactness.module.css';

/** Sizes from half the smallest to twice the largest of these. */
const around = (...sizes: readonly number[]): [number, number] => [
  Math.min(...sizes) / 2,
  Math.max(...sizes) * 2,
];

const few = (value: number) => String(Number(value.toPrecision(2)));

const useLengths = () => {
  const units = useUnits();
  return {
    units,
    shown: (length: number) => (units === 'mm' ? length : mmToInch(mm(length))),
    hidden: (value: number) => (units === 'mm' ? mm(value) : inchToMm(inch(value))),
    rough: (length: number) => formatLengthRough(mm(length), units),
  };
};

interface WordProps {
  readonly x: number;
  readonly y: number;
  /** The frame's middle: a word stands on the side where there is room. */
  readonly middle: number;
  readonly children: string;
}

const Word = ({ x, y, middle, children }: WordProps) => (
  <text
    className={styles['word']}
    x={x < middle ? x + 10 : x - 10}
    y={y}
    textAnchor={x < middle ? 'start' : 'end'}
  >
    {children}
  </text>
);

const PitchPlot = () => {
  const job = useJob();
  const { units, shown, rough } = useLengths();
  const { budgetZones: budget, pitchUnsureLpi: unsure } = exactnessOf(job);
  const across = acrossMm(job);
  const widest = widestFor(budget, lpi(unsure));
  const sizes = around(shown(across), shown(widest));
  const at = (size: number) => (budget * shown(25.4)) / size;
  const known = [at(sizes[1]), at(sizes[0])] as [number, number];
  const needed = at(shown(across));
  return (
    <figure>
      <Plot
        name={
          `Pitch tolerance against print size: this print, ${rough(across)} ${units}, allows ` +
          `±${trimmed(needed, 3)} LPI; the pitch is known to ±${trimmed(unsure, 3)} LPI, enough for ` +
          `${rough(widest)} ${units}.`
        }
        x={ratioAxis(`Print size across the ribs, ${units}`, sizes, few)}
        y={ratioAxis('Pitch exact to ±, LPI', known, few)}
      >
        {(x, y) => {
          const [left, right] = x.range() as [number, number];
          const [bottom] = y.range() as [number, number];
          const middle = (left + right) / 2;
          const ends = sizes.map((size) => [x(size), y(at(size))] as const);
          const [px, py] = [x(shown(across)), y(needed)];
          const [wx, wy] = [x(shown(widest)), y(unsure)];
          return (
            <>
              <path className={styles['inside']} d={`${line(ends)}V${bottom}H${left}Z`} />
              <path className={styles['curve']} d={line(ends)} />
              <line className={styles['known']} x1={left} x2={right} y1={wy} y2={wy} />
              <line className={styles['drop']} x1={wx} x2={wx} y1={wy} y2={bottom} />
              <line className={styles['drop']} x1={px} x2={px} y1={py} y2={bottom} />
              <circle className={styles['largest']} cx={wx} cy={wy} r="6" />
              <circle className={styles['point']} cx={px} cy={py} r="7" />
              <Word x={wx} y={wy - 9} middle={middle}>
                {`largest ${rough(widest)}`}
              </Word>
              <Word x={px} y={py + (py > wy ? 20 : -12)} middle={middle}>
                {`this print ±${trimmed(needed, 3)}`}
              </Word>
            </>
          );
        }}
      </Plot>
      <figcaption>
        Under the line the picture stays inside the budget. Dashed: how exactly the pitch is known.
        Equal lengths are equal ratios.
      </figcaption>
    </figure>
  );
};

const SquarePlot = () => {
  const job = useJob();
  const { units, shown, hidden, rough } = useLengths();
  const { budgetZones: budget } = exactnessOf(job);
  const along = alongMm(job);
  const { pitchMm } = lensOf(job);
  const sizes = around(shown(along) / 2, shown(along) * 2);
  const at = (size: number): number =>
    radToDeg(tolerance(budget, pitchMm, mm(1), hidden(size)).skewRad);
  const needed = at(shown(along));
  return (
    <figure>
      <Plot
        name={`Squareness against print size: this print, ${rough(along)} ${units} along the ribs, must be square to ±${trimmed(needed, 3)} degrees.`}
        x={ratioAxis(`Print size along the ribs, ${units}`, sizes, few)}
        y={ratioAxis('Square to ±, degrees', [at(sizes[1]), at(sizes[0])], few)}
      >
        {(x, y) => {
          const [left, right] = x.range() as [number, number];
          const [bottom] = y.range() as [number, number];
          const steps = Array.from({ length: 25 }, (_, i) => left + ((right - left) * i) / 24);
          const curve = steps.map((place) => [place, y(at(x.invert(place)))] as const);
          const [px, py] = [x(shown(along)), y(needed)];
          return (
            <>
              <path className={styles['inside']} d={`${line(curve)}V${bottom}H${left}Z`} />
              <path className={styles['curve']} d={line(curve)} />
              <line className={styles['drop']} x1={px} x2={px} y1={py} y2={bottom} />
              <circle className={styles['point']} cx={px} cy={py} r="7" />
              <Word x={px} y={py - 10} middle={right}>
                {`this print ±${trimmed(needed, 3)}°`}
              </Word>
            </>
          );
        }}
      </Plot>
      <figcaption>
        Under the line it is square enough for the same budget, top to bottom.
      </figcaption>
    </figure>
  );
};

const Behind = () => {
  const job = useJob();
  const { units, shown, hidden, rough } = useLengths();
  const { budgetZones: budget, pitchUnsureLpi: unsure } = exactnessOf(job);
  const { pitchMm } = lensOf(job);
  const own = [acrossMm(job), alongMm(job), widestFor(budget, lpi(unsure))];
  const [least, most] = around(...own.map(shown));
  const sizes = [...new Set([...roundSteps(least, most).map(hidden), ...own])];
  const rows = sizes
    .sort((a, b) => a - b)
    .map((size) => {
      const { pitchLpi, pitchShare, skewRad } = tolerance(budget, pitchMm, size, size);
      return [
        rough(size),
        trimmed(pitchLpi, 4),
        trimmed(100 * pitchShare, 3),
        unsure <= pitchLpi * (1 + 1e-9) ? 'yes' : 'no',
        trimmed(radToDeg(skewRad), 4),
      ];
    });
  return (
    <FiguresTable
      caption="Exactness by print size, in figures"
      head={[
        `Print size, ${units}`,
        'Pitch ±, LPI',
        'Pitch ±, %',
        'Known well enough',
        'Square ±, °',
      ]}
      rows={rows}
    />
  );
};

/** What it comes to, in one sentence. */
export const Outcome = () => {
  const job = useJob();
  const { units, rough } = useLengths();
  const { budgetZones: budget, pitchUnsureLpi: unsure } = exactnessOf(job);
  const fits = unsure <= toleranceOf(job).pitchLpi * (1 + 1e-9);
  const slide = trimmed(unsure * mmToInch(acrossMm(job)), 2);
  return (
    <Prose large tone={fits ? 'good' : 'caution'}>
      {fits
        ? `The pitch is known well enough: at worst the picture slides ${slide} of a zone from edge to edge.`
        : `The pitch is not known well enough for this width: it may slide ${slide} of a zone, more than ${trimmed(budget, 3)}. Prove it with a strip, or print at most ${rough(widestFor(budget, lpi(unsure)))} ${units} across the ribs.`}
    </Prose>
  );
};

export const ExactnessPlots = () => (
  <>
    <Columns least={22} gap="4 5" className={styles['plots']}>
      <PitchPlot />
      <SquarePlot />
    </Columns>
    <Behind />
  </>
);
