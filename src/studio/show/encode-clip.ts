/** Packs pictures into a clip by the browser's own encoder. Loaded when a clip is wanted. */
import {
  BufferTarget,
  CanvasSource,
  Mp4OutputFormat,
  Output,
  Quality,
  WebMOutputFormat,
  getFirstEncodableVideoCodec,
} from 'mediabunny';

/**
 * MP4 with H.264 opens everywhere; where the browser cannot make it, WebM.
 * @param draw draws one picture after the other on the canvas, and has each added.
 */
export const encodeClip = async (
  canvas: OffscreenCanvas,
  framesASecond: number,
  draw: (add: (index: number) => Promise<void>) => Promise<void>,
): Promise<Blob> => {
  const { width, height } = canvas;
  const codec = await getFirstEncodableVideoCodec(['avc', 'vp9', 'vp8'], { width, height });
  if (codec === null)
    throw new Error(
      'This browser makes no clips. Save it as a page instead, or use another browser.',
    );
  const format = codec === 'avc' ? new Mp4OutputFormat() : new WebMOutputFormat();
  const target = new BufferTarget();
  const output = new Output({ format, target });
  const source = new CanvasSource(canvas, { codec, quality: new Quality('high') });
  output.addVideoTrack(source, { frameRate: framesASecond });
  try {
    await output.start();
    await draw((index) => source.add(index / framesASecond, 1 / framesASecond));
    await output.finalize();
  } catch (error) {
    await output.cancel().catch(() => undefined);
    throw error;
  }
  return new Blob([target.buffer ?? new ArrayBuffer(0)], { type: format.mimeType });
};
