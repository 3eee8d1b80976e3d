/** A folder looked at while files appear in it, grow and change. */
import { describe, expect, it } from 'vitest';
import type { WatchedFolder } from '../../src/files/watch-folder.ts';
import { FolderLooks } from '../../src/files/watch-folder.ts';

const file = (name: string, bytes: number, time = 0) =>
  new File([new Uint8Array(bytes)], name, { lastModified: time });
const folderOf = (files: Map<string, File>): WatchedFolder => ({
  name: 'renders',
  async *values() {
    for (const [name, one] of files)
      yield await Promise.resolve({
        kind: 'file' as const,
        name,
        getFile: () => (one.name === 'gone' ? Promise.reject(new Error()) : Promise.resolve(one)),
      });
  },
});
const names = (files: File[]) => files.map(({ name }) => name);
const unknown = () => false;

describe('watching a folder', () => {
  it('takes a file once two looks find it alike, and once only', async () => {
    const files = new Map([['a.png', file('a.png', 10)]]);
    const looks = new FolderLooks(folderOf(files));
    expect(await looks.look(unknown)).toEqual([]);
    expect(names(await looks.look(unknown))).toEqual(['a.png']);
    expect(await looks.look(unknown)).toEqual([]);
  });

  it('waits while a file grows, and takes it again when it was written again', async () => {
    const files = new Map([['a.png', file('a.png', 10)]]);
    const looks = new FolderLooks(folderOf(files));
    await looks.look(unknown);
    files.set('a.png', file('a.png', 20));
    expect(await looks.look(unknown)).toEqual([]);
    expect(names(await looks.look(unknown))).toEqual(['a.png']);
    files.set('a.png', file('a.png', 20, 5));
    expect(await looks.look(unknown)).toEqual([]);
    expect(names(await looks.look(unknown))).toEqual(['a.png']);
  });

  it('passes over what is empty, no picture, vanished or known', async () => {
    const files = new Map(
      ['empty.png', 'notes.txt', 'gone', '.hidden.png', 'known.png', 'new.png'].map((name) => [
        name,
        file(name, name === 'empty.png' ? 0 : 9),
      ]),
    );
    const looks = new FolderLooks(folderOf(files));
    const isKnown = ({ name }: File) => name === 'known.png';
    await looks.look(isKnown);
    expect(names(await looks.look(isKnown))).toEqual(['new.png']);
    expect(await looks.look(isKnown)).toEqual([]);
  });
});
