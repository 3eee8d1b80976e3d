/** The crosstalk matrix as a heat map: what an eye before each view sees of every slot. */
import type { PointerEvent } from 'react';
import { useMemo, useState } from 'react';
import { FiguresTable, Slider, Stack } from '../../../ui/index.ts';
import type { Matrix } from '../../../preview/drawings/mix-cells.ts';
import {
  LEVELS,
  mixTable,
  percent,
  sayView,
  scaleOf,
  shadePaths,
} from '../../../preview/drawings/mix-cells.ts';
import styles from './fit.module.css';

interface Cell {
  readonly view: number;
  readonly slot: number;
}

const cellAt = (event: PointerEvent<SVGSVGElement>, count: number): Cell => {
  const box = event.currentTarget.getBoundingClientRect();
  const place = (at: number, from: number, size: number) =>
    Math.min(count - 1, Math.max(0, Math.floor(((at - from) / size) * count)));
  return {
    view: place(event.clientX, box.left, box.width),
    slot: place(event.clientY, box.top, box.height),
  };
};

const Legend = ({ scale }: { readonly scale: number }) => (
  <p className={styles['legend']} aria-hidden="true">
    <span>0</span>
    {Array.from({ length: LEVELS }, (_, shade) => (
      <span key={shade} className={styles['swatch']} data-shade={shade + 1} />
    ))}
    <span>{percent(scale)}</span>
  </p>
);

interface PictureProps {
  readonly matrix: Matrix;
  readonly view: number;
  onPoint(cell: Cell | undefined): void;
}

const Picture = ({ matrix, view, onPoint }: PictureProps) => {
  const count = matrix.length;
  const paths = useMemo(() => shadePaths(matrix), [matrix]);
  return (
    <div className={styles['map']}>
      <span className={styles['across']}>Wanted view, 1 to {count}</span>
      <span className={styles['down']}>Slot seen, 1 to {count}</span>
      <svg
        viewBox={`0 0 ${count} ${count}`}
        role="img"
        aria-label={`What mixes: wanted view across, slot seen down, ${count} of each. The figures are in the table below.`}
        onPointerMove={(event) => onPoint(cellAt(event, count))}
        onPointerDown={(event) => onPoint(cellAt(event, count))}
        onPointerLeave={() => onPoint(undefined)}
      >
        {paths.map(
          (path, shade) => path !== '' && <path key={shade} d={path} data-shade={shade + 1} />,
        )}
        <rect x={view} y={0} width={1} height={count} className={styles['column']} />
      </svg>
    </div>
  );
};

export const MixMap = ({ matrix }: { readonly matrix: Matrix }) => {
  const [chosen, setChosen] = useState(Math.floor(matrix.length / 2));
  const [pointed, setPointed] = useState<Cell>();
  const table = useMemo(() => mixTable(matrix), [matrix]);
  const view = pointed?.view ?? chosen;
  const own = matrix[chosen]?.[chosen] ?? 0;
  return (
    <Stack gap={2}>
      <h3>What mixes under a rib</h3>
      <Picture matrix={matrix} view={view} onPoint={setPointed} />
      <Legend scale={scaleOf(matrix)} />
      {matrix.length > 1 && (
        <Slider
          label="Wanted view"
          value={chosen + 1}
          min={1}
          max={matrix.length}
          step={1}
          valueText={`${chosen + 1} of ${matrix.length}: ${percent(own)} its own`}
          onChange={(value) => setChosen(value - 1)}
        />
      )}
      <p className={styles['readout']}>
        Before view {view + 1} an eye sees{' '}
        {pointed === undefined
          ? sayView(matrix, view)
          : `${percent(matrix[view]?.[pointed.slot] ?? 0)} slot ${pointed.slot + 1}`}
        .
      </p>
      <FiguresTable caption="What mixes, in figures" {...table} />
    </Stack>
  );
};
