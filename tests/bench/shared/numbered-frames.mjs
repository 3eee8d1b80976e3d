// @ts-check
/** Small real pictures in any number: a gradient each, with its number on it. */
import sharp from 'sharp';

export const WIDTH_PX = 96;
export const HEIGHT_PX = 120;

/** `frame_0001.png`, counted from 1. */
export const nameOf = (/** @type {number} */ number) =>
  `frame_${String(number).padStart(4, '0')}.png`;

/** @returns {Promise<Buffer>} the bytes of a PNG; no two numbers below 10 000 have the same pixels. */
export const numberedFrame = (/** @type {number} */ number) =>
  sharp(
    Buffer.from(
      `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH_PX}" height="${HEIGHT_PX}">
        <linearGradient id="sky" x2="0.3" y2="1">
          <stop stop-color="hsl(${(number * 37) % 360} 60% 70%)"/><stop offset="1" stop-color="#123"/>
        </linearGradient>
        <rect width="100%" height="100%" fill="url(#sky)"/>
        <text x="50%" y="60%" text-anchor="middle" font-family="sans-serif" font-size="32" fill="#fff">${number}</text>
      </svg>`,
    ),
  )
    .png({ compressionLevel: 6 })
    .toBuffer();
