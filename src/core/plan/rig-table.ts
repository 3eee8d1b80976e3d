/** The rig as a table for spreadsheets and scripts: one row for each view, conventions above. */
import type { Rig } from './rig.ts';
import { focalFor } from './rig.ts';
import { railWidth, turnOf } from './turned.ts';

export interface TableChoices {
  readonly unitName: string;
  readonly unitMm: number;
  readonly sensorMm: number;
  readonly framePx: { readonly widthPx: number; readonly heightPx: number };
}

export interface RigTable {
  /** Sentences. */
  readonly conventions: readonly string[];
  readonly head: readonly string[];
  readonly rows: readonly (readonly number[])[];
}

/** A unit’s name as part of a column name: letters and digits only. */
const inName = (unitName: string): string => unitName.replace(/[^A-Za-z0-9]+/g, '_');

const short = (value: number): number => Number(value.toPrecision(10));

export const rigTable = (rig: Rig, choices: TableChoices): RigTable => {
  const unit = inName(choices.unitName);
  const { widthPx, heightPx } = choices.framePx;
  const wide = railWidth(rig);
  return {
    conventions: [
      'Right-handed axes: x right, y up, cameras look along -z. Key plane z = 0, its middle the origin.',
      `Lengths in scene units of ${short(choices.unitMm)} mm, or as the column says. View 1 is the leftmost camera.`,
      'window_shift: share of the frame width; positive moves the window to the right; = -camera_x / width at the key plane.',
      `Width at the key plane ${short(rig.keyWidth)}, height ${short(rig.keyHeight)}; frame ${widthPx} x ${heightPx} px.`,
      `Sensor ${short(choices.sensorMm)} mm wide, focal length ${short(focalFor(choices.sensorMm, rig.keyWidth, rig.keyDistance))} mm.`,
      `rail_crop_px: left edge of the frame in a straight-ahead photograph ${Math.ceil(wide * widthPx)} px wide.`,
      'turn_deg: turn of a camera turned in, or of a turntable the other way; positive at the right. Distorts.',
    ],
    head: [
      'view',
      `camera_x_${unit}`,
      `camera_y_${unit}`,
      `camera_z_${unit}`,
      'window_shift',
      'window_shift_px',
      'sensor_shift_mm',
      'rail_crop_px',
      'turn_deg',
    ],
    rows: rig.cameras.map(({ view, x, windowShift }) =>
      [
        view + 1,
        x,
        0,
        rig.keyDistance,
        windowShift,
        windowShift * widthPx,
        windowShift * choices.sensorMm,
        ((wide - 1) / 2 + windowShift) * widthPx,
        (turnOf(rig, x) * 180) / Math.PI,
      ].map(short),
    ),
  };
};

/** Comma-separated (RFC 4180), below lines of conventions that begin with "#". */
export const toCsv = ({ conventions, head, rows }: RigTable): string =>
  [
    ...conventions.map((line) => `# ${line}`),
    head.join(','),
    ...rows.map((row) => row.join(',')),
    '',
  ].join('\r\n');

/** Tab-separated, to paste into a spreadsheet; the conventions come after the table. */
export const toTsv = ({ conventions, head, rows }: RigTable): string =>
  [head.join('\t'), ...rows.map((row) => row.join('\t')), ...conventions, ''].join('\n');
