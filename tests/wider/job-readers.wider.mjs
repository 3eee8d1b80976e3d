// @ts-check
/**
 * A job saved by the studio in a browser, opened by zip readers of others: Info-ZIP's unzip, and Python's
 * zipfile, which also packs it anew for the studio to open.
 */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { openStudio } from '../bench/shared/studio.mjs';
import { installPackages, isDebian } from '../tools/debian.mjs';
import { run } from '../tools/house.mjs';

const work = mkdtempSync(join(tmpdir(), 'tiltloom-jobs-'));
const saved = join(work, 'glasshouse.tiltloom.zip');
/** @type {Awaited<ReturnType<typeof openStudio>>} */
let studio;

const read = async (/** @type {string} */ command, /** @type {string[]} */ ...args) => {
  const { code, output } = await run(command, args, { quiet: true });
  assert.equal(code, 0, `${command} ${args.join(' ')}\n${output}`);
  return output;
};

const there = async (/** @type {string} */ command) =>
  (await run('which', [command], { quiet: true })).code === 0;

const save = async (/** @type {string} */ path) => {
  const { page } = studio;
  // A busy machine is slow, not wrong.
  const coming = page.waitForEvent('download', { timeout: 120_000 });
  await page.getByRole('button', { name: 'Save job file' }).click();
  await (await coming).saveAs(path);
};

before(async () => {
  if (isDebian() && !(await there('unzip'))) await installPackages(['unzip']);
  if (isDebian() && !(await there('python3'))) await installPackages(['python3']);
  studio = await openStudio();
  const { page } = studio;
  // Without the picker a job file goes the way of every download.
  await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
  await page.goto(`${new URL(page.url()).origin}/#/frames`);
  await page.reload();
  const rows = page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
  await rows.nth(11).waitFor({ timeout: 60_000 });
  // A demo is no job of a person's own until they change it.
  await page.getByRole('textbox', { name: 'Job name' }).fill('Sea wall');
  await page.keyboard.press('Enter');
  await save(saved);
});
after(async () => {
  await studio.close();
  rmSync(work, { recursive: true, force: true });
});

describe('a saved job file', () => {
  it('unzip tests every entry and finds no fault', async () => {
    assert.match(await read('unzip', '-t', saved), /No errors detected/);
  });

  it('zipfile finds the list, the job and twelve originals, all stored', async () => {
    const script = `
import json, sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as z:
    assert z.testzip() is None
    names = z.namelist()
    listed = json.loads(z.read('tiltloom.json'))
    job = json.loads(z.read('job.json'))
    assert names[:2] == ['tiltloom.json', 'job.json'], names
    assert names[2:] == [o['path'] for o in listed['originals']], names
    assert all(z.getinfo(o['path']).file_size == o['bytes'] for o in listed['originals'])
    assert [f['id'] for f in job['frames']] == [o['id'] for o in listed['originals']]
    assert all(i.compress_type == zipfile.ZIP_STORED for i in z.infolist())
    print(len(job['frames']), z.read(names[2])[:4])`;
    assert.match(await read('python3', '-c', script, saved), /12 b'\\x89PNG'/);
  });

  it('packed again by zipfile, deflated, it opens as the same job', async () => {
    const anew = join(work, 'anew.tiltloom.zip');
    const script = `
import sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as z, zipfile.ZipFile(sys.argv[2], 'w', zipfile.ZIP_DEFLATED) as out:
    for name in reversed(z.namelist()):
        out.writestr(name, z.read(name))`;
    await read('python3', '-c', script, saved, anew);
    const { page } = studio;
    await page.locator('input[aria-label="Open job file"]').setInputFiles(anew);
    await page.getByRole('status').getByText('is open').waitFor({ timeout: 120_000 });
    const again = join(work, 'again.tiltloom.zip');
    await save(again);
    const compare = `
import json, sys, zipfile
def parts(path):
    with zipfile.ZipFile(path) as z:
        originals = json.loads(z.read('tiltloom.json'))['originals']
        job = json.loads(z.read('job.json'))
        for f in job['frames']: del f['id']
        return job.pop('name'), job, {o['name']: z.read(o['path']) for o in originals}
(was, *first), (now, *second) = parts(sys.argv[1]), parts(sys.argv[2])
print(was, '→', now, first == second)`;
    // The job of that name is kept beside it.
    assert.match(await read('python3', '-c', compare, saved, again), /Sea wall → Sea wall 2 True/);
    assert.ok(readFileSync(again).length > 100_000);
  });
});
