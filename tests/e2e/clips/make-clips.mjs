// @ts-check
/**
 * Makes the clips beside it anew, with Debian's ffmpeg: `node tests/e2e/clips/make-clips.mjs`. Forty frames of 320 × 200; eight
 * blocks in a row tell each frame's number in binary, lowest first, white for 1, and its top left corner is red.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';

const FRAMES = 40;
const work = mkdtempSync(join(tmpdir(), 'tiltloom-clips-'));
const here = (/** @type {string} */ name) => new URL(name, import.meta.url).pathname;
const ffmpeg = (/** @type {string[]} */ ...options) =>
  execFileSync('ffmpeg', ['-loglevel', 'error', '-y', '-bitexact', ...options]);

try {
  for (let number = 0; number < FRAMES; number += 1) {
    const blocks = Array.from({ length: 8 }, (_, bit) => ({
      input: {
        create: {
          width: 40,
          height: 80,
          channels: /** @type {const} */ (3),
          background: (number >> bit) & 1 ? '#ffffff' : '#000000',
        },
      },
      left: bit * 40,
      top: 80,
    }));
    const corner = {
      input: {
        create: {
          width: 60,
          height: 40,
          channels: /** @type {const} */ (3),
          background: '#ff0000',
        },
      },
      left: 0,
      top: 0,
    };
    await sharp({ create: { width: 320, height: 200, channels: 3, background: '#5a6e5a' } })
      .composite([...blocks, corner])
      .png()
      .toFile(join(work, `${String(number).padStart(2, '0')}.png`));
  }
  const from = ['-framerate', '25', '-i', join(work, '%02d.png')];
  // Frames that are predicted from later ones, so that they are not stored in the order they are shown.
  ffmpeg(
    ...from,
    '-c:v',
    'libx264',
    '-pix_fmt',
    'yuv420p',
    '-g',
    '12',
    '-bf',
    '2',
    here('lighthouse.mp4'),
  );
  ffmpeg(
    '-i',
    here('lighthouse.mp4'),
    '-c',
    'copy',
    '-metadata:s:v:0',
    'rotate=90',
    here('turned.mov'),
  );
  ffmpeg(...from, '-c:v', 'libvpx-vp9', '-pix_fmt', 'yuv420p', here('lighthouse.webm'));
} finally {
  rmSync(work, { recursive: true, force: true });
}
