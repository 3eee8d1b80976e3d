/**
 * Profiles of Debian's packages (colord-data, icc-profiles-free, libgs-common) against its own build of Little CMS
 * (liblcms2-utils). Passed over where they are not installed.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { DeviceSpace } from '../../../src/core/colour/icc/device-space.ts';
import { deviceChannels } from '../../../src/core/colour/icc/device-space.ts';
import { convertDots } from '../../../src/core/colour/icc/device-table.ts';
import { found, printTable } from '../../../workers/colour/read.ts';
import { seeded } from '../../core/numeric/kernel-rooms.ts';
import { fileOf } from './published.ts';

vi.mock('lcms-wasm/dist/lcms.wasm?url', () => ({
  default: createRequire(import.meta.url).resolve('lcms-wasm/dist/lcms.wasm'),
}));

/** Packages unpacked elsewhere can be named. */
const ROOT = process.env['ICC_ROOT'] ?? '/usr';
const FOLDER = join(ROOT, 'share/color/icc');
const TRANSICC = join(ROOT, 'bin/transicc');

const DOTS = 300;
const codes = (): Uint8Array => {
  const below = seeded(11);
  return Uint8Array.from({ length: DOTS * 3 }, () => below(256));
};

/** Percent of ink, or codes of 255, a line each. */
const byTransicc = (path: string, rgb: Uint8Array, space: DeviceSpace): number[][] => {
  const lines = Array.from({ length: DOTS }, (_, dot) =>
    rgb.subarray(dot * 3, dot * 3 + 3).join(' '),
  );
  // Its bounded mode takes percents for shares, and clips them at 1.
  const bounded = space === 'CMYK' ? [] : ['-s'];
  const options = ['-i', '*sRGB', '-o', path, '-t', '1', '-b', '-n', ...bounded, '-v0'];
  const printed = execFileSync(TRANSICC, options, { input: lines.join('\n'), encoding: 'utf8' });
  return printed
    .split('\n')
    .filter((line) => /^[\d.-]+( [\d.-]+)* *$/.test(line))
    .map((line) => line.trim().split(' ').map(Number));
};

const isThere = existsSync(FOLDER) && existsSync(TRANSICC);

test.skipIf(!isThere)(
  'every profile of the packages is refused by name, or converts as transicc does @wider',
  async () => {
    const names = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' });
    const rgb = codes();
    let converted = 0;
    for (const name of names.filter((one) => /\.ic[cm]$/.test(one))) {
      const path = join(FOLDER, name);
      const file = fileOf(Uint8Array.from(readFileSync(path)), name);
      const facts = await found({ id: 'a', ...file }).catch((error: unknown) => {
        expect(error, name).toMatchObject({ name: 'StudioError', file: name });
        return undefined;
      });
      if (facts === undefined) continue;
      const { table } = await printTable({ id: 'a', ...file, intent: 'relative' });
      const nodes = new Uint16Array(await table.nodes.arrayBuffer());
      const ours = convertDots(rgb, { channels: table.channels, nodes });
      const channels = deviceChannels[facts.space];
      const theirs = byTransicc(path, rgb, facts.space);
      expect(theirs, name).toHaveLength(DOTS);
      const full = facts.space === 'CMYK' ? 100 : 255;
      const off = theirs.flatMap((numbers, dot) =>
        numbers.map((number, c) =>
          Math.abs((255 * number) / full - (ours[dot * channels + c] ?? NaN)),
        ),
      );
      // Half a code is rounding; a kink between nodes can be a few. Spaces of film and of scenes, which no printer takes,
      // leap from the first code to the second.
      expect(off.reduce((sum, one) => sum + one, 0) / off.length, name).toBeLessThan(0.5);
      if (facts.use === 'printer') expect(Math.max(...off), name).toBeLessThan(8);
      converted += 1;
    }
    expect(converted).toBeGreaterThan(5);
  },
  600_000,
);
