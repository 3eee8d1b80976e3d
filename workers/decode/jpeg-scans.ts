/**
 * Whether the scans of a JPEG hold all of its picture (ITU-T T.81). Browsers fill missing
 * parts with grey and say nothing; a header can also state a size that its few bytes could never fill.
 */
import { u16be } from './bytes.ts';
import { damaged } from './image.ts';
import type { PixelSize } from './image.ts';
import type { HuffmanTable } from './jpeg-bits.ts';
import { ScanBits, huffmanTable, nextMarker } from './jpeg-bits.ts';
import { AcScan, Known, passBlock, passDc } from './jpeg-blocks.ts';

interface Component {
  readonly id: number;
  /** Blocks across and down in one unit of the interleaved order. */
  readonly across: number;
  readonly down: number;
  /** Blocks of the component by itself. */
  readonly columns: number;
  readonly blocks: number;
  /** Made when the first scan needs it. */
  known?: Known;
  /** By coefficient, the lowest bit that was sent so far; undefined where nothing was. */
  readonly sentTo: (number | undefined)[];
}

interface Frame extends PixelSize {
  readonly progressive: boolean;
  readonly components: readonly Component[];
  /** How many units of the interleaved order the picture has. */
  readonly unitsAcross: number;
  readonly unitsDown: number;
}

/** Tables between the scans; they apply to the scans that follow. */
interface Settings {
  readonly tables: Map<number, HuffmanTable>;
  restartEvery: number;
}

interface Part {
  readonly component: Component;
  readonly dc: HuffmanTable | undefined;
  readonly ac: HuffmanTable | undefined;
}

interface Scan {
  readonly parts: readonly Part[];
  readonly first: number;
  readonly last: number;
  /** The lowest bit sent before, and now; 0 and 0 in a sequential scan. */
  readonly high: number;
  readonly low: number;
}

/** Progressive writers make about ten scans; each takes one pass over the whole picture. */
const SCANS_AT_MOST = 200;

const readFrame = (file: Uint8Array, at: number, name: string): Frame => {
  const [heightPx, widthPx, count] = [u16be(file, at + 5), u16be(file, at + 7), file[at + 9] ?? 0];
  const factors = Array.from({ length: count }, (_, i) => {
    const [id = 0, sampling = 0] = file.subarray(at + 10 + 3 * i);
    return { id, across: sampling >> 4, down: sampling & 15 };
  });
  const most = (side: 'across' | 'down') => Math.max(...factors.map((one) => one[side]));
  const [across, down] = [most('across'), most('down')];
  if (factors.some((one) => one.across * one.down === 0))
    throw damaged(name, 'its header gives a colour without samples');
  const blocksOf = (sidePx: number, factor: number, largest: number) =>
    Math.ceil(Math.ceil((sidePx * factor) / largest) / 8);
  return {
    widthPx,
    heightPx,
    progressive: (file[at + 1] ?? 0) === 0xc2,
    components: factors.map((one) => {
      const columns = blocksOf(widthPx, one.across, across);
      const blocks = columns * blocksOf(heightPx, one.down, down);
      return { ...one, columns, blocks, sentTo: new Array<number | undefined>(64) };
    }),
    unitsAcross: Math.ceil(widthPx / (8 * across)),
    unitsDown: Math.ceil(heightPx / (8 * down)),
  };
};

const readTables = (file: Uint8Array, at: number, { tables }: Settings, name: string): void => {
  const end = at + 2 + u16be(file, at + 2);
  for (let next = at + 4; next + 17 <= end;) {
    const counts = file.subarray(next + 1, next + 17);
    const symbols = counts.reduce((sum, count) => sum + count, 0);
    const table = huffmanTable(counts, file.subarray(next + 17, next + 17 + symbols));
    if (table === undefined) throw damaged(name, 'its tables of codes make no sense');
    tables.set(file[next] ?? 0, table);
    next += 17 + symbols;
  }
};

const readScan = (
  file: Uint8Array,
  at: number,
  { components }: Frame,
  { tables }: Settings,
): Scan | undefined => {
  const count = file[at + 4] ?? 0;
  const parts = Array.from({ length: count }, (_, i) => {
    const [id = 0, codes = 0] = file.subarray(at + 5 + 2 * i);
    const component = components.find((one) => one.id === id);
    return (
      component && { component, dc: tables.get(codes >> 4), ac: tables.get(16 | (codes & 15)) }
    );
  }).filter((part) => part !== undefined);
  const [first = 0, last = 0, bits = 0] = file.subarray(at + 5 + 2 * count);
  if (parts.length !== count || count === 0) return undefined;
  return { parts, first, last: Math.min(63, last), high: bits >> 4, low: bits & 15 };
};

/** Reads past one block. @returns whether its codes are valid */
type Pass = (block: number) => boolean;

/** Undefined where the scan lacks its table of codes. */
const passOf = (bits: ScanBits, frame: Frame, scan: Scan, part: Part): Pass | undefined => {
  const { component, dc, ac } = part;
  if (!frame.progressive) return dc && ac && (() => passBlock(bits, dc, ac));
  if (scan.first === 0 && scan.high === 0) return dc && (() => passDc(bits, dc));
  if (scan.first === 0) return () => bits.drop(1);
  if (ac === undefined || scan.parts.length > 1) return undefined;
  const acScan = new AcScan(bits, ac, scan, (component.known ??= new Known(component.blocks)));
  return scan.high === 0
    ? (block) => acScan.passFirst(block)
    : (block) => acScan.passRefining(block);
};

/** The unit that a scan repeats: a block of its one component, or a few blocks of each of several. */
const unitsOf = (frame: Frame, { parts }: Scan) => {
  const [first] = parts;
  if (parts.length === 1 && first !== undefined) {
    const { columns, blocks } = first.component;
    return { count: blocks, inRow: columns, rows: Math.ceil(blocks / columns) };
  }
  const { unitsAcross, unitsDown } = frame;
  return { count: unitsAcross * unitsDown, inRow: unitsAcross, rows: unitsDown };
};

/** @throws StudioError `damaged` where the scan does not reach the last unit of the picture */
const walkScan = (
  bits: ScanBits,
  frame: Frame,
  scan: Scan,
  restartEvery: number,
  name: string,
): void => {
  const open = () =>
    scan.parts.flatMap((part) => {
      const { across, down } = part.component;
      const pass = passOf(bits, frame, scan, part);
      return Array.from({ length: scan.parts.length === 1 ? 1 : across * down }, () => pass);
    });
  let passes = open();
  // A browser may know tables that the file leaves out, so it decides.
  if (!passes.every((pass) => pass !== undefined)) return;
  const { count, inRow, rows } = unitsOf(frame, scan);
  for (let unit = 0; unit < count; unit += 1) {
    let sound = true;
    if (restartEvery > 0 && unit > 0 && unit % restartEvery === 0) {
      sound = bits.restart();
      passes = open();
    }
    for (const pass of passes) sound &&= pass!(unit);
    const isShort = bits.starved || (!sound && bits.ending);
    // Some writers leave out the last bits; that cannot be seen.
    if (isShort && unit === count - 1) return;
    if (sound && !isShort) continue;
    const row = Math.round((Math.floor(unit / inRow) / rows) * frame.heightPx);
    throw damaged(
      name,
      isShort
        ? `of its ${frame.widthPx} × ${frame.heightPx} pixels only the first ${row} rows are there in full`
        : `its picture makes no sense from row ${row} of ${frame.heightPx} on`,
    );
  }
};

/** Whether every colour was begun, and every coefficient that was begun was sent to its last bit. */
const isComplete = ({ components }: Frame): boolean =>
  components.every(({ sentTo }) => sentTo[0] === 0 && sentTo.every((low) => (low ?? 0) === 0));

const note = ({ parts, first, last, low }: Scan, { progressive }: Frame): void => {
  for (const { component } of parts)
    // A sequential scan holds all coefficients, whatever it states.
    if (progressive) component.sentTo.fill(low, first, last + 1);
    else component.sentTo.fill(0);
};

/**
 * Reads every scan, code by code, without making pixels: that takes less time than decoding.
 * @param file whose header readJpegHeader has read: sequential or progressive, Huffman coded, 8 bit
 * @throws StudioError `damaged`
 */
export const checkJpegScans = (file: Uint8Array, name: string): void => {
  const settings: Settings = { tables: new Map(), restartEvery: 0 };
  let frame: Frame | undefined;
  let scans = 0;
  for (let at = nextMarker(file, 2); at < file.length && file[at + 1] !== 0xd9;) {
    const marker = file[at + 1] ?? 0;
    if (marker >= 0xd0 && marker <= 0xd8) {
      at = nextMarker(file, at + 2);
      continue;
    }
    const body = at + 2 + u16be(file, at + 2);
    if (marker >= 0xc0 && marker <= 0xc2) frame ??= readFrame(file, at, name);
    else if (marker === 0xc4) readTables(file, at, settings, name);
    else if (marker === 0xdd) settings.restartEvery = u16be(file, at + 4);
    const scan = marker === 0xda && frame ? readScan(file, at, frame, settings) : undefined;
    let next = body;
    if (scan && frame) {
      scans += 1;
      if (scans > SCANS_AT_MOST) throw damaged(name, `it has more than ${SCANS_AT_MOST} scans`);
      const bits = new ScanBits(file, body);
      walkScan(bits, frame, scan, settings.restartEvery, name);
      note(scan, frame);
      next = bits.at;
    }
    at = nextMarker(file, next);
  }
  if (frame === undefined || !isComplete(frame))
    throw damaged(name, 'the JPEG breaks off before its last scan');
};
