/** The tiles to scale as the print is seen from the front, numbered as they are laid. */
import type { Tile, Tiling } from '../../../core/sheet/tiles.ts';
import { layingOrder } from '../../../core/sheet/tiles.ts';
import { formatLength, trimmed } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import {
  eyeWords,
  laidAs,
  seamsOf,
  tileMiddleMm,
  tileName,
  zonesOff,
} from '../../../job/facts/tiles.ts';
import { FiguresTable, Prose, Stack, ToScale } from '../../../ui/index.ts';
import { useJob, useUnits } from '../../studio.ts';
import styles from './tiles.module.css';

/** More than so many side by side leave no room for a number that can be read. */
const MOST_NUMBERED = 12;

export const TilesDrawing = ({ tiling }: { readonly tiling: Tiling }) => {
  const job = useJob();
  const { tiles, rows, columns } = tiling;
  const left = Math.min(...tiles.map(({ leftMm }) => leftMm));
  const top = Math.min(...tiles.map(({ topMm }) => topMm));
  const width = -2 * left;
  const height = -2 * top;
  const numbers = laidAs(tiling);
  const percent = (length: number, of: number) => `${(100 * length) / of}%`;
  return (
    <Stack as="figure">
      <div
        className={styles['wall']}
        role="img"
        aria-label={`${tiles.length} tiles to scale, ${rows} rows of ${columns}, seen from the front`}
        style={{
          aspectRatio: `${width} / ${height}`,
          maxInlineSize: `${(34 * width) / height}rem`,
        }}
      >
        <ToScale
          widthMm={width}
          heightMm={height}
          ribs={job.ribs}
          pieces={tiles.map((tile) => ({
            look: numbers.get(tile) === 1 ? 'own' : 'outline',
            x: tile.leftMm - left,
            y: tile.topMm - top,
            width: tile.widthMm,
            height: tile.heightMm,
          }))}
          preserveAspectRatio="none"
          aria-hidden="true"
        >
          <path
            className={styles['middle']}
            d={`M${width / 2} 0v${height}M0 ${height / 2}h${width}`}
          />
        </ToScale>
        {columns <= MOST_NUMBERED &&
          tiles.map((tile) => (
            <span
              key={`${tile.row} ${tile.column}`}
              className={styles['number']}
              aria-hidden="true"
              style={{
                left: percent(tile.leftMm - left + tile.widthMm / 2, width),
                top: percent(tile.topMm - top + tile.heightMm / 2, height),
              }}
            >
              {numbers.get(tile)}
            </span>
          ))}
      </div>
      <Prose as="figcaption">
        From the front, top edge up, fine lines along the ribs. Numbers are the order of laying; the
        broken lines cross at the whole’s middle.
      </Prose>
      <TilesTable tiling={tiling} />
    </Stack>
  );
};

const TilesTable = ({ tiling }: { readonly tiling: Tiling }) => {
  const job = useJob();
  const units = useUnits();
  const numbers = laidAs(tiling);
  const cell = (length: number) => formatLength(mm(length), units);
  const size = (tile: Tile) => [tile.widthMm, tile.heightMm].map(cell);
  return (
    <FiguresTable
      caption="The tiles in figures"
      head={[
        'Tile',
        'Laid as',
        'Ribs',
        `Width, ${units}`,
        `Height, ${units}`,
        `Middle off across, ${units}`,
        'Align with the eye',
        'From its own middle, zones off',
        'Seams',
      ]}
      rows={layingOrder(tiling).map((tile) => [
        tileName(tiling, tile),
        numbers.get(tile),
        tile.across.ribs,
        ...size(tile),
        cell(tileMiddleMm(tile)),
        eyeWords(job, tile, units),
        trimmed(zonesOff(job, tile), 2),
        seamsOf(tiling, tile).join(', ') || 'none',
      ])}
    />
  );
};
