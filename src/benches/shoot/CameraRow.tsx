/** The row of cameras at the foot of the top view, enlarged where it is too small to be seen. */
import type { Rig } from '../../core/plan/rig.ts';
import { trimmed } from '../../core/units/format.ts';
import type { SceneUnit } from '../../job/facts/rig.ts';
import { sceneLength } from '../../job/facts/scene-measure.ts';
import styles from './shoot.module.css';

interface Props {
  readonly rig: Rig;
  readonly width: number;
  /** Where the cameras stand on the screen. */
  readonly y: number;
  xOf(x: number): number;
  readonly unit: SceneUnit;
}

export const CameraRow = ({ rig, width, y, xOf, unit }: Props) => {
  const half = rig.cameras.at(-1)?.x ?? 0;
  const spread = xOf(half) - xOf(-half);
  const wanted = Math.min(width - 60, 30 * rig.cameras.length);
  const enlarged = spread > 0 && spread < 0.6 * wanted ? wanted / spread : 1;
  const below = y + (enlarged > 1 ? 34 : 8);
  const at = (x: number) => width / 2 + (xOf(x) - width / 2) * enlarged;
  return (
    <g>
      {enlarged > 1 && (
        <path
          d={`M${xOf(-half)} ${y}L${at(-half)} ${below - 8}M${xOf(half)} ${y}L${at(half)} ${below - 8}`}
          className={styles['ray']}
        />
      )}
      {rig.cameras.map(({ view, x }) => (
        <path key={view} d={`M${at(x)} ${below - 9}l6 11h-12Z`} className={styles['camera']} />
      ))}
      <text x={width / 2} y={y + 52} className={styles['middle']}>
        {`${rig.cameras.length} cameras, ${sceneLength(rig.step, unit)} apart`}
      </text>
      {enlarged > 1 && (
        <text x={width / 2} y={y + 69} className={styles['middle']}>
          {`drawn ${trimmed(enlarged, 0)} times as wide`}
        </text>
      )}
    </g>
  );
};
