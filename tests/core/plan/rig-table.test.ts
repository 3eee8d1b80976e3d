/** The rig as a table of its cameras. */
import { describe, expect, test } from 'vitest';
import { rigOf } from '../../../src/core/plan/rig.ts';
import { rigTable, toCsv, toTsv } from '../../../src/core/plan/rig-table.ts';
import { railWidth } from '../../../src/core/plan/turned.ts';
import { setting } from './rig-settings.ts';

describe('table', () => {
  const rig = rigOf(setting);
  const table = rigTable(rig, {
    unitName: 'm',
    unitMm: 1000,
    sensorMm: 36,
    framePx: { widthPx: 1000, heightPx: 1250 },
  });
  test('CSV and TSV hold a row a view and say their conventions', () => {
    const csv = toCsv(table).split('\r\n');
    const body = csv.filter((one) => !one.startsWith('#') && one !== '');
    expect(body).toHaveLength(13);
    expect(body[0]).toMatch(/^view,camera_x_m,camera_y_m,camera_z_m,window_shift,/);
    expect(csv.some((one) => one.startsWith('# Right-handed'))).toBe(true);
    expect(toTsv(table).split('\n')[1]!.split('\t')).toEqual(body[1]!.split(','));
  });
  test('the rail’s crops lie inside the wider photograph and show the window', () => {
    // By similar triangles: a straight camera at x sees x ± wide · W / 2 on the key plane.
    const wide = railWidth(rig) * rig.keyWidth;
    for (const [i, { x }] of rig.cameras.entries()) {
      const cropPx = table.rows[i]![table.head.indexOf('rail_crop_px')]!;
      expect(x - wide / 2 + (cropPx / 1000) * rig.keyWidth).toBeCloseTo(-rig.keyWidth / 2, 6);
      expect(cropPx).toBeGreaterThanOrEqual(-1e-6);
    }
  });
});
