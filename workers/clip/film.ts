/** Clips in containers of film: MP4, MOV, WebM and Matroska, decoded by the browser. */
import type { InputVideoTrack } from 'mediabunny';
import {
  BlobSource,
  EncodedPacketSink,
  Input,
  MATROSKA,
  MP4,
  QTFF,
  VideoSampleSink,
  WEBM,
} from 'mediabunny';
import { StudioError } from '../../src/contract/errors.ts';
import { nameInText } from '../../src/core/names/shown.ts';
import type { Checkpoint } from '../answer.ts';
import { checkSize, damaged, unsupported } from '../decode/image.ts';
import type { ClipFrame, OpenClip } from './clip.ts';
import { MOST_FRAMES, noFrames, tooMany } from './clip.ts';

/** When each frame begins, rising, and when the last one ends. No pixel is decoded for it. */
const timesOf = async (
  track: InputVideoTrack,
  name: string,
  checkpoint: Checkpoint,
): Promise<{ timesS: number[]; endS: number }> => {
  const timesS: number[] = [];
  let endS = 0;
  const all = new EncodedPacketSink(track).packets(undefined, undefined, { metadataOnly: true });
  for await (const { timestamp, duration } of all) {
    await checkpoint();
    // What ends before the clip begins is there to be decoded, not to be shown.
    if (timestamp + duration <= 0 && timestamp < 0) continue;
    timesS.push(timestamp);
    endS = Math.max(endS, timestamp + duration);
    if (timesS.length > MOST_FRAMES) throw tooMany(name);
  }
  if (timesS.length === 0) throw noFrames(name);
  // Packets come in the order in which they are decoded.
  timesS.sort((a, b) => a - b);
  return { timesS, endS };
};

const trackOf = async (input: Input, name: string): Promise<InputVideoTrack> => {
  const track = await input.getPrimaryVideoTrack();
  if (track === null)
    throw new StudioError(
      'not-a-picture',
      `"${nameInText(name)}" holds no moving picture that can be found: only sound or text, or it broke off as it was copied. Copy it again, or add another clip.`,
      name,
    );
  if (!(await track.canDecode()))
    throw unsupported(
      name,
      `is packed in a way (${(await track.getCodec()) ?? 'unknown'}) that this browser cannot decode`,
      'Save the clip as MP4 with H.264, or as WebM with VP9, and add that.',
    );
  return track;
};

export const openFilm = async (
  file: Blob,
  name: string,
  checkpoint: Checkpoint,
): Promise<OpenClip> => {
  const input = new Input({ source: new BlobSource(file), formats: [MP4, QTFF, WEBM, MATROSKA] });
  try {
    const track = await trackOf(input, name);
    const size = {
      widthPx: await track.getDisplayWidth(),
      heightPx: await track.getDisplayHeight(),
    };
    checkSize(size, name);
    const { timesS, endS } = await timesOf(track, name, checkpoint);
    return {
      ...size,
      timesS,
      endS,
      frames: async function* (numbers) {
        // The middle of the time a frame is shown: rounding cannot take it for its neighbour.
        const middles = numbers.map((n) => ((timesS[n] ?? 0) + (timesS[n + 1] ?? endS)) / 2);
        for await (const sample of new VideoSampleSink(track).samplesAtTimestamps(middles)) {
          if (sample === null) throw damaged(name, 'a frame in it cannot be read');
          yield {
            draw: (context, width, height) => sample.draw(context, 0, 0, width, height),
            close: () => sample.close(),
          } satisfies ClipFrame;
        }
      },
      close: () => input.dispose(),
    };
  } catch (error) {
    input.dispose();
    throw error;
  }
};
