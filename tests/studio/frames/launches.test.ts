/** Files that the system opens with the installed studio go the way of a drop. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { acceptedFiles, acceptedTypes } from '../../../src/files/accepted.ts';
import { takeLaunches } from '../../../src/studio/frames/launches.ts';
import { makeStudio } from '../support.ts';

const { handOverFiles } = vi.hoisted(() => ({ handOverFiles: vi.fn() }));
vi.mock('../../../src/studio/frames/hand-over.ts', () => ({ handOverFiles }));

type Take = (launch: { files?: readonly object[] }) => void;
const setConsumer = vi.fn<(take: Take) => void>();
const fileHandle = (getFile: () => Promise<File>) => ({ kind: 'file', getFile });

beforeEach(() => vi.stubGlobal('launchQueue', { setConsumer }));
afterEach(() => {
  vi.unstubAllGlobals();
  vi.clearAllMocks();
});

const launch = (files?: readonly object[]) => {
  const studio = makeStudio();
  takeLaunches(studio);
  setConsumer.mock.lastCall?.[0](files === undefined ? {} : { files });
  return studio;
};

it('all together, without folders', async () => {
  const gate = new File(['x'], 'gate.png');
  const job = new File(['y'], 'Sea gate.tiltloom.zip');
  const studio = launch([
    fileHandle(() => Promise.resolve(gate)),
    { kind: 'directory' },
    fileHandle(() => Promise.resolve(job)),
  ]);
  await vi.waitFor(() => expect(handOverFiles).toHaveBeenCalledWith(studio, [gate, job]));
});

it('started without a file, nothing is handed over', async () => {
  launch();
  launch([]);
  await Promise.resolve();
  expect(handOverFiles).not.toHaveBeenCalled();
});

it('a file that is gone by then is told', async () => {
  const studio = launch([fileHandle(() => Promise.reject(new Error('it was moved')))]);
  await vi.waitFor(() =>
    expect(studio.work.getState().deskNotice).toMatch(/could not be read: it was moved/),
  );
});

it('where the browser knows of no such thing, nothing is asked of it', () => {
  vi.stubGlobal('launchQueue', undefined);
  expect(() => takeLaunches(makeStudio())).not.toThrow();
});

it('the file inputs take the same files', () => {
  for (const ending of Object.values(acceptedTypes).flat())
    expect(acceptedFiles.split(',')).toContain(ending);
});
