/** The strip through the real pool, worker service and binder, read back by an independent decoder. */
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Sink } from '../../src/contract/sink.ts';
import { stripRows, stripSize } from '../../src/core/pitch/strip-rows.ts';
import type { StripSpec } from '../../src/core/pitch/strip.ts';
import { weaveStrip } from '../../src/calls/strip.ts';
import { createStripService } from '../../workers/strip-service.ts';
import { InProcessWorker } from './in-process-worker.ts';

beforeAll(() => {
  vi.stubGlobal(
    'Worker',
    class extends InProcessWorker {
      constructor() {
        super(createStripService());
      }
    },
  );
});
afterAll(() => vi.unstubAllGlobals());

const spec = (ribs: StripSpec['ribs']): StripSpec => ({
  acrossDpi: 360,
  alongDpi: 180,
  ribs,
  bandsLpi: [59.8, 59.9, 60],
  bandDots: 702,
  lensLpi: 60,
  readFromMm: 400,
  barsIn: 'mm',
});

const collector = () => {
  const parts: Uint8Array[] = [];
  let closed = false;
  let aborted = false;
  const sink: Sink = {
    write: async (bytes) => void parts.push(bytes),
    patch: async () => undefined,
    close: async () => void (closed = true),
    abort: async () => void (aborted = true),
  };
  return { sink, bytes: () => Buffer.concat(parts), state: () => ({ closed, aborted }) };
};

const weave = (
  strip: StripSpec,
  sink: Sink,
  signal = new AbortController().signal,
  report = (_: number) => {},
) => {
  const { widthDots, heightDots } = stripSize(strip);
  const [horizontalDpi, verticalDpi] = strip.ribs === 'upright' ? [360, 180] : [180, 360];
  return weaveStrip(
    {
      strip,
      fileType: 'png',
      info: { width: widthDots, height: heightDots, horizontalDpi, verticalDpi },
      bandBytes: 100_000,
    },
    sink,
    { signal, report },
  );
};

describe.each(['upright', 'lying'] as const)('a strip with %s ribs', (ribs) => {
  it('is bound from its bands to the very dots, with its density', async () => {
    const strip = spec(ribs);
    const { widthDots, heightDots } = stripSize(strip);
    const { sink, bytes, state } = collector();
    const reports: number[] = [];
    const outcome = await weave(strip, sink, undefined, (rows) => reports.push(rows));
    expect(outcome.done).toBe(true);
    expect(state()).toEqual({ closed: true, aborted: false });
    expect(reports.length).toBeGreaterThan(3);
    expect(reports.at(-1)).toBe(heightDots);
    const { data, info } = await sharp(bytes()).raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([widthDots, heightDots]);
    expect(Buffer.compare(data, Buffer.from(stripRows(strip, 0, heightDots)))).toBe(0);
    // W3C PNG pHYs, dots a metre, nearest: 360 → 14173, 180 → 7087.
    const at = bytes().indexOf('pHYs');
    const across = ribs === 'upright' ? [14173, 7087] : [7087, 14173];
    expect([bytes().readUInt32BE(at + 4), bytes().readUInt32BE(at + 8)]).toEqual(across);
  });
});

it('leaves nothing behind when it is stopped', async () => {
  const { sink, state } = collector();
  const halt = new AbortController();
  const outcome = await weave(spec('upright'), sink, halt.signal, () => halt.abort());
  expect(outcome.done).toBe(false);
  expect(state()).toEqual({ closed: false, aborted: true });
});
