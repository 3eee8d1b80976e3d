/** Weaving the tiles one after the other: into files here to be downloaded, or into a folder. */
import type { Sink } from '../../contract/sink.ts';
import { StudioError, toWorkError } from '../../contract/errors.ts';
import type { FrameStack } from '../../contract/weave.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import type { PageSpec } from '../../core/sheet/page-spec.ts';
import type { Tile } from '../../core/sheet/tiles.ts';
import { askForFolder, openFolderSink } from '../../files/folder.ts';
import type { KeptSink } from '../../files/sinks.ts';
import { openKeptSink } from '../../files/sinks.ts';
import type { Job } from '../../job/schema/job.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import { splitOf, tilePageOf, tilePaperOf } from '../../job/facts/tiles.ts';
import { weaveSheet } from '../../calls/weave.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import type { TileFile, TilesState } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import { progressReporter } from './weave-file.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import { sayPrepareFaults, untilPrepared } from '../prepare/until-prepared.ts';
import { whileWeaving } from './weaving.ts';
import { wovenFrom } from './woven-from.ts';

const setState = (tiles: TilesState) => workStore.getState().set({ tiles });

interface TileToWeave {
  readonly name: string;
  readonly fileName: string;
  readonly page: PageSpec;
}

/** One set of tiles, as the job stood when it was asked for. */
interface TileSet {
  readonly job: Job;
  readonly fileType: SheetFileType;
  readonly tiles: readonly TileToWeave[];
  readonly key: string;
}

const keyOf = (job: Job): string => JSON.stringify([wovenFrom(job), job.tiles ?? null, job.name]);

export const shortName = ({ row, column }: Tile): string => `row ${row + 1}, tile ${column + 1}`;

/** In the order in which they lie: row by row. @throws StudioError where the print cannot be split. */
const setOf = (job: Job): TileSet => {
  const { fileType, units } = viewStore.getState();
  const split = splitOf(job);
  if (!split.ok) throw new StudioError('internal', split.message);
  const { page } = tilePaperOf(job, split.tiling);
  // Sweden writes dates as ISO 8601 does.
  const date = new Date().toLocaleDateString('sv-SE');
  return {
    job,
    fileType,
    key: keyOf(job),
    tiles: split.tiling.tiles.map((tile) => ({
      name: shortName(tile),
      fileName: `Row ${tile.row + 1} tile ${tile.column + 1}, ${sheetFileName(job, fileType)}`,
      page: tilePageOf(job, split.tiling, tile, page, units, date),
    })),
  };
};

const preparedStack = async (job: Job, signal: AbortSignal): Promise<FrameStack | undefined> => {
  const stack = await untilPrepared(job, signal);
  if (stack !== undefined || signal.aborted) return stack;
  throw new StudioError('internal', `The tiles cannot be woven: ${sayPrepareFaults()}`);
};

let halt: AbortController | undefined;
/** Files of the last set, on the private disk. */
let kept: KeptSink[] = [];
let links: string[] = [];

export const stopTiles = (): void => halt?.abort();

/** Weaves all tiles and tells workStore how it goes. Does nothing while some are being woven. */
export const weaveTiles = async (where: 'here' | 'folder'): Promise<void> => {
  if (halt !== undefined) return;
  const own = new AbortController();
  halt = own;
  try {
    // The dialog must open from the person's own click, before anything else is waited for.
    const folder = where === 'folder' ? await askForFolder() : undefined;
    if (where === 'folder' && folder === undefined) return;
    const set = setOf(documentStore.getState().job);
    await whileWeaving(`the tiles of ${set.job.name}`, () => weaveSet(set, folder, own.signal));
  } catch (error) {
    const { message } = toWorkError(error);
    const ended = { files: [], count: 0, seconds: 0, stale: false };
    setState({ stage: 'failed', ...ended, message });
  } finally {
    halt = undefined;
  }
};

const weaveSet = async (
  set: TileSet,
  folder: FileSystemDirectoryHandle | undefined,
  signal: AbortSignal,
): Promise<void> => {
  const startedAt = performance.now();
  const last = { kept, links };
  [kept, links] = [[], []];
  const files: TileFile[] = [];
  const count = set.tiles.length;
  const rows = set.tiles.reduce((sum, { page }) => sum + page.heightDots, 0);
  let place = 0;
  const report = progressReporter(rows, (progress) => setState({ ...progress, place, count }));
  const end = (stage: 'woven' | 'stopped' | 'failed', message?: string) => {
    watchForChange(set.key);
    setState({
      ...{ stage, files, count, seconds: (performance.now() - startedAt) / 1000 },
      stale: keyOf(documentStore.getState().job) !== set.key,
      ...(message === undefined ? {} : { message }),
    });
  };
  setState({ stage: 'weaving', place, count, rowsDone: 0, rows, secondsLeft: undefined });
  try {
    const stack = await preparedStack(set.job, signal);
    let before = 0;
    for (const tile of stack === undefined ? [] : set.tiles) {
      place = files.length;
      const file = await weaveOne(set, tile, stack as FrameStack, folder, {
        signal,
        report: (rowsDone) => report(before + rowsDone),
      });
      if (file === undefined) break;
      files.push(file);
      before += tile.page.heightDots;
    }
    end(files.length === count ? 'woven' : 'stopped');
  } catch (error) {
    end('failed', toWorkError(error).message);
  } finally {
    letGo(last);
  }
};

/** Only now: till the new set was there, the last may have been on its way into a download. */
const letGo = (last: { kept: readonly KeptSink[]; links: readonly string[] }) => {
  for (const link of last.links) URL.revokeObjectURL(link);
  for (const sink of last.kept) sink.discard().catch(() => undefined);
};

/** Undefined when it was stopped. */
const weaveOne = async (
  { job, fileType }: TileSet,
  { name, fileName, page }: TileToWeave,
  stack: FrameStack,
  folder: FileSystemDirectoryHandle | undefined,
  call: { readonly signal: AbortSignal; readonly report: (rowsDone: number) => void },
): Promise<TileFile | undefined> => {
  const keptSink = folder === undefined ? await openKeptSink(fileName, fileType) : undefined;
  const sink: Sink =
    keptSink ?? (await openFolderSink(folder as FileSystemDirectoryHandle, fileName));
  const info = sheetInfo({ ...job, name: `${job.name}, ${name}` }, new Date(), page);
  const request = { sheet: sheetSpecOf(job), stack, page, fileType, info };
  const outcome = await weaveSheet(request, sink, call);
  if (!outcome.done) return undefined;
  const { byteLength } = outcome.value;
  if (keptSink === undefined) return { name, fileName, byteLength, href: undefined };
  kept.push(keptSink);
  const href = URL.createObjectURL(await keptSink.file());
  links.push(href);
  return { name, fileName, byteLength, href };
};

let unwatch: (() => void) | undefined;

const watchForChange = (key: string) => {
  unwatch?.();
  const look = () => {
    const { tiles } = workStore.getState();
    if (tiles.stage === 'idle' || tiles.stage === 'weaving') return;
    const stale = keyOf(documentStore.getState().job) !== key;
    if (stale !== tiles.stale) setState({ ...tiles, stale });
  };
  const endings = [
    documentStore.subscribe(look),
    workStore.subscribe((now, then) => {
      if (now.wholeParallax !== then.wholeParallax) look();
    }),
  ];
  unwatch = () => {
    for (const ending of endings) ending();
  };
};
