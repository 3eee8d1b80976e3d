/**
 * The list of entries at the end of a zip (PKWARE APPNOTE 6.3.10, sections 4.3.7, 4.3.12, 4.3.16). It is not
 * trusted: every number is checked against the file itself before anything is unpacked.
 */
import type { BundleLimits } from './bundle.ts';
import { inMegabytes, refuse } from './bundle.ts';

export interface BundleEntry {
  readonly path: string;
  /** 0 stored, 8 deflate. */
  readonly method: 0 | 8;
  /** Unpacked size that the list states; no more than this is unpacked. */
  readonly bytes: number;
  readonly packedBytes: number;
  readonly crc: number;
  /** Position of its content in the file. */
  readonly start: number;
}

const END_BYTES = 22;
const MOST_COMMENT = 65535;
const LOCAL_BYTES = 30;
const RECORD_BYTES = 46;
const ENCRYPTED = 1;
const PATH = /^[A-Za-z0-9][A-Za-z0-9._-]*(\/[A-Za-z0-9][A-Za-z0-9._-]*)*\/?$/;

const CUT = 'It was cut short or damaged. Copy it again from where it was saved.';
const DAMAGED = 'Its list of contents does not agree with what it holds: it is damaged or forged.';
const ZIP64 =
  'It is a zip in the form for more than 4 GB, which the studio does not read. Job files are smaller.';

const viewOf = async (file: Blob, from: number, to: number, name: string): Promise<DataView> => {
  try {
    return new DataView(await file.slice(from, to).arrayBuffer());
  } catch {
    throw refuse(name, 'It can no longer be read: it was moved, changed or deleted.');
  }
};

const latin = (view: DataView, at: number, length: number): string =>
  Array.from({ length }, (_, i) => String.fromCharCode(view.getUint8(at + i))).join('');

interface End {
  readonly count: number;
  readonly from: number;
  readonly to: number;
}

const findEnd = async (file: Blob, name: string, limits: BundleLimits): Promise<End> => {
  const head = await viewOf(file, 0, 4, name);
  if (head.byteLength < 4 || head.getUint32(0, true) !== 0x04034b50)
    throw refuse(
      name,
      file.size === 0 ? 'It is empty.' : 'It is no job file: it does not begin as a zip does.',
      'not-a-picture',
    );
  const tailAt = Math.max(0, file.size - END_BYTES - MOST_COMMENT);
  const tail = await viewOf(file, tailAt, file.size, name);
  let at = tail.byteLength - END_BYTES;
  const fits = () =>
    tail.getUint32(at, true) === 0x06054b50 &&
    at + END_BYTES + tail.getUint16(at + 20, true) === tail.byteLength;
  while (at >= 0 && !fits()) at -= 1;
  if (at < 0) throw refuse(name, CUT);
  const [disk, listDisk, here, count] = [4, 6, 8, 10].map((o) => tail.getUint16(at + o, true));
  const size = tail.getUint32(at + 12, true);
  const from = tail.getUint32(at + 16, true);
  if (count === 0xffff || size === 0xffffffff || from === 0xffffffff)
    throw refuse(name, ZIP64, 'too-large');
  if (disk !== 0 || listDisk !== 0 || here !== count) throw refuse(name, 'It is a part of a zip.');
  if (from + size !== tailAt + at) throw refuse(name, DAMAGED);
  if (size > limits.jsonBytes) throw refuse(name, DAMAGED);
  if ((count ?? 0) > limits.entries)
    throw refuse(name, `It holds ${count} entries; up to ${limits.entries} are read.`, 'too-large');
  return { count: count ?? 0, from, to: from + size };
};

/** Files that operating systems add when a person packs a folder. They are not read. */
const isLitter = (path: string): boolean => /^__MACOSX\/|^([a-z]+\/)?\.DS_Store$/.test(path);

interface Record {
  readonly path: string;
  readonly method: number;
  readonly flags: number;
  readonly crc: number;
  readonly packedBytes: number;
  readonly bytes: number;
  readonly headerAt: number;
}

const readRecords = async (file: Blob, end: End, name: string): Promise<Record[]> => {
  // findEnd has limited the size of the list.
  const view = await viewOf(file, end.from, end.to, name);
  const records: Record[] = [];
  let at = 0;
  while (records.length < end.count) {
    if (at + RECORD_BYTES > view.byteLength || view.getUint32(at, true) !== 0x02014b50)
      throw refuse(name, DAMAGED);
    const [nameBytes, extraBytes, commentBytes] = [28, 30, 32].map((o) =>
      view.getUint16(at + o, true),
    ) as [number, number, number];
    const next = at + RECORD_BYTES + nameBytes + extraBytes + commentBytes;
    if (next > view.byteLength) throw refuse(name, DAMAGED);
    records.push({
      path: latin(view, at + RECORD_BYTES, nameBytes),
      flags: view.getUint16(at + 8, true),
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packedBytes: view.getUint32(at + 20, true),
      bytes: view.getUint32(at + 24, true),
      headerAt: view.getUint32(at + 42, true),
    });
    at = next;
  }
  if (at !== view.byteLength) throw refuse(name, DAMAGED);
  return records;
};

/** A path for use in a sentence: shortened, with invisible characters removed. */
const shown = (path: string): string =>
  `“${path.replace(/[^\x20-\x7e]/g, '?').slice(0, 80)}${path.length > 80 ? '…' : ''}”`;

const checkRecord = (record: Record, name: string, limits: BundleLimits): void => {
  const { path, flags, method, bytes, packedBytes, headerAt } = record;
  if (!PATH.test(path) || path.includes('..'))
    throw refuse(name, `It holds ${shown(path)}, a path that no job file has.`);
  if (bytes === 0xffffffff || packedBytes === 0xffffffff || headerAt === 0xffffffff)
    throw refuse(name, ZIP64, 'too-large');
  if ((flags & ENCRYPTED) !== 0)
    throw refuse(
      name,
      `${shown(path)} in it is locked with a password. Pack it again without one.`,
      'unsupported-variant',
    );
  if (method !== 0 && method !== 8)
    throw refuse(
      name,
      `${shown(path)} in it is packed in a way the studio does not read. Pack it again with ordinary compression (deflate).`,
      'unsupported-variant',
    );
  if (method === 0 && bytes !== packedBytes) throw refuse(name, DAMAGED);
  const most = path.startsWith('originals/') ? limits.originalBytes : limits.jsonBytes;
  if (bytes > most)
    throw refuse(
      name,
      `${shown(path)} in it unpacks to ${inMegabytes(bytes)}; up to ${inMegabytes(most)} are read.`,
      'too-large',
    );
  // Small entries are exempt: a short text of blanks may well shrink a thousandfold.
  if (bytes > 2 ** 20 && bytes > packedBytes * limits.ratio)
    throw refuse(
      name,
      `${shown(path)} in it unpacks to more than ${limits.ratio} times its size, as no picture does.`,
      'too-large',
    );
};

/** Finds where the content of each entry begins. Refuses local headers that differ from the list. */
const place = async (
  file: Blob,
  records: readonly Record[],
  end: End,
  name: string,
): Promise<BundleEntry[]> => {
  const sorted = [...records].sort((a, b) => a.headerAt - b.headerAt);
  const entries: BundleEntry[] = [];
  let free = 0;
  for (const { path, method, crc, bytes, packedBytes, headerAt } of sorted) {
    // Entries that share bytes make a small zip unpack to a huge one: refused.
    if (headerAt < free || headerAt + LOCAL_BYTES > end.from) throw refuse(name, DAMAGED);
    const header = await viewOf(
      file,
      headerAt,
      Math.min(end.from, headerAt + LOCAL_BYTES + path.length),
      name,
    );
    if (header.byteLength < LOCAL_BYTES + path.length || header.getUint32(0, true) !== 0x04034b50)
      throw refuse(name, DAMAGED);
    const nameBytes = header.getUint16(26, true);
    const start = headerAt + LOCAL_BYTES + nameBytes + header.getUint16(28, true);
    const same =
      nameBytes === path.length &&
      latin(header, LOCAL_BYTES, nameBytes) === path &&
      header.getUint16(8, true) === method;
    if (!same || start + packedBytes > end.from) throw refuse(name, DAMAGED);
    free = start + packedBytes;
    entries.push({ path, method: method as 0 | 8, bytes, packedBytes, crc, start });
  }
  return entries;
};

/**
 * Entries by path.
 * @throws StudioError with the reason, for the person
 */
export const readDirectory = async (
  file: Blob,
  name: string,
  limits: BundleLimits,
): Promise<ReadonlyMap<string, BundleEntry>> => {
  if (file.size > limits.fileBytes) throw refuse(name, ZIP64, 'too-large');
  const end = await findEnd(file, name, limits);
  const records = (await readRecords(file, end, name)).filter(({ path }) => !isLitter(path));
  for (const record of records) checkRecord(record, name, limits);
  const wanted = records.filter(({ path }) => !path.endsWith('/'));
  const total = wanted.reduce((sum, { bytes }) => sum + bytes, 0);
  if (total > limits.totalBytes)
    throw refuse(
      name,
      `It unpacks to ${inMegabytes(total)}; up to ${inMegabytes(limits.totalBytes)} are read.`,
      'too-large',
    );
  const entries = new Map<string, BundleEntry>();
  for (const entry of await place(file, wanted, end, name)) {
    if (entries.has(entry.path)) throw refuse(name, `It holds ${shown(entry.path)} twice.`);
    entries.set(entry.path, entry);
  }
  return entries;
};
