/** Reads a QR code that is held before a camera. */
import { decodeQR } from 'qr/decode.js';

/** Often enough for a steady hand, and seldom enough for a slow machine. */
const EVERY_MS = 200;
/** Wide enough for a code that fills a third of the picture. */
const WIDTH_PX = 960;

/**
 * Looks at a picture again and again until it has a code that is wanted.
 * @param wanted returns what the text says, or undefined for the text of some other code
 */
export const readCodeFrom = (
  video: HTMLVideoElement,
  wanted: (text: string) => string | undefined,
  signal: AbortSignal,
): Promise<string> =>
  new Promise((resolve, reject) => {
    const canvas = document.createElement('canvas');
    const pen = canvas.getContext('2d', { willReadFrequently: true });
    const look = (): string | undefined => {
      const { videoWidth, videoHeight } = video;
      if (pen === null || videoWidth === 0) return undefined;
      canvas.width = Math.min(WIDTH_PX, videoWidth);
      canvas.height = Math.round((videoHeight * canvas.width) / videoWidth);
      pen.drawImage(video, 0, 0, canvas.width, canvas.height);
      try {
        return wanted(decodeQR(pen.getImageData(0, 0, canvas.width, canvas.height)));
      } catch {
        // No code in it.
        return undefined;
      }
    };
    const timer = setInterval(() => {
      const read = look();
      if (read === undefined) return;
      clearInterval(timer);
      resolve(read);
    }, EVERY_MS);
    signal.addEventListener('abort', () => {
      clearInterval(timer);
      reject(signal.reason as Error);
    });
  });
