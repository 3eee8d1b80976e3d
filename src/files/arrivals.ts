/**
 * Everything a person can hand over (chosen files, a chosen folder, a drop of files, folders and zips)
 * as one flat list of candidates, with a note on each file left out. Files that operating systems leave in
 * every folder are skipped without a note.
 */
import { numberedRun } from '../core/frames/gaps.ts';
import { isLitter, isProfileName, nameOf, plainPath } from '../core/names/paths.ts';
import { isSceneName } from '../core/stage/scene-kinds.ts';
import { beginsAsBundle } from './bundle.ts';
import type { Picked } from './pick-drop.ts';
import { picturesInZip } from './zip-in.ts';

export interface Arrival {
  /** File name alone. */
  readonly name: string;
  /** Folders and name, `/` between; text to sort and show, never a place to read from. */
  readonly path: string;
  readonly file: Blob;
}

export interface LeftOut {
  readonly path: string;
  readonly reason: string;
  /** `note`: it was not meant as a frame. `problem`: it may have been one. */
  readonly severity: 'problem' | 'note';
}

export interface Gathered {
  readonly arrivals: readonly Arrival[];
  /** Files that hold a whole job. */
  readonly jobFiles: readonly File[];
  /** Clips and animations: which of their frames are taken, the person says. */
  readonly clips: readonly File[];
  /** Printer profiles, which are kept with papers. */
  readonly profiles: readonly File[];
  readonly leftOut: readonly LeftOut[];
  /** A 3D scene with what was given beside it; left out: there is none. */
  readonly scene?: readonly Arrival[];
}

/** A file with the folders it came from. */
interface Found {
  readonly path: string;
  readonly file: File;
}

const PICTURE = /\.(png|jpe?g|jpe|jfif|webp|avif|tiff?|exr)$/i;
const CLIP = /\.(mp4|m4v|mov|webm|mkv|gif|apng)$/i;
const MAY_MOVE = /\.(webp|avif)$/i;
const ZIP = /\.zip$/i;

const FILES_AT_MOST = 5000;
const FOLDERS_DEEP_AT_MOST = 32;

/** A file without an extension may be a picture: the decoder looks inside. */
const mayBePicture = (path: string): boolean =>
  PICTURE.test(path) || !/.\.[a-z][a-z0-9]{0,4}$/i.test(nameOf(path));

/**
 * Whether a picture of this kind is an animation: WebP says so in a bit of its first chunk (RFC 9649, 2.7), AVIF by its
 * brand (AV1 Image File Format, 6.3).
 */
const moves = async (file: Blob): Promise<boolean> => {
  const head = new Uint8Array(await file.slice(0, 32).arrayBuffer());
  const text = (at: number) => String.fromCharCode(...head.subarray(at, at + 4));
  if (text(0) === 'RIFF') return text(12) === 'VP8X' && ((head[20] ?? 0) & 2) !== 0;
  return text(4) === 'ftyp' && text(8) === 'avis';
};

const isClip = async ({ path, file }: Found): Promise<boolean> =>
  CLIP.test(path) || (MAY_MOVE.test(path) && (await moves(file).catch(() => false)));

const notPicture =
  'It is not a picture or clip this studio reads (PNG, JPEG, WebP, AVIF, TIFF, OpenEXR; MP4, MOV, WebM, GIF), so it was left out.';

const clipInZip = 'A clip inside a zip is not opened. Unpack the zip, then add the clip.';

const profileInZip =
  'A colour profile inside a zip is not kept. Unpack the zip, then add the profile.';

const zipInZip = 'A zip inside a zip is not opened. Unpack the outer one, then add the inner one.';

const FRAMES_LEAST = 3;

/** Pictures beside a scene are its textures, unless they are numbered through: then they are frames, with a rig beside them. */
const isScene = (paths: readonly string[]): boolean => {
  // Most often thousands of frames and no scene.
  if (!paths.some(isSceneName)) return false;
  const plain = paths.map(plainPath).filter((path) => !isLitter(path));
  if (!plain.some(isSceneName)) return false;
  const pictures = plain.filter((path) => PICTURE.test(path)).map(nameOf);
  return pictures.length < FRAMES_LEAST || numberedRun(pictures) === undefined;
};

const sceneBesideFrames =
  'It is a 3D scene beside numbered frames. Add it by itself on the Shoot bench.';

/** Zips, clips and profiles are named only where they lie in a zip: elsewhere they are taken. */
const reasonAgainst = (path: string): string => {
  if (isSceneName(path)) return sceneBesideFrames;
  if (ZIP.test(path)) return zipInZip;
  if (CLIP.test(path)) return clipInZip;
  return isProfileName(path) ? profileInZip : notPicture;
};

/** It was hardly meant as a frame. */
const isNote = (reason: string): boolean => reason !== zipInZip && reason !== clipInZip;

/** The scene with all that was given beside it. */
const sceneOf = (found: readonly Found[]): Gathered => ({
  arrivals: [],
  jobFiles: [],
  clips: [],
  profiles: [],
  leftOut: [],
  scene: found.map(({ path, file }) => ({ name: nameOf(path), path, file })),
});

const unpack = async (found: Found, signal: AbortSignal | undefined): Promise<Gathered> => {
  if (await beginsAsBundle(found.file).catch(() => false))
    return { arrivals: [], jobFiles: [found.file], clips: [], profiles: [], leftOut: [] };
  const contents = await picturesInZip(
    found.file,
    (path) => PICTURE.test(path) && !isLitter(plainPath(path)),
    signal === undefined ? {} : { signal },
  );
  if (isScene([...contents.pictures.map(({ path }) => path), ...contents.passedOver]))
    return sceneOf([found]);
  const inZip = (path: string) => `${found.path}/${plainPath(path)}`;
  const arrivals = contents.pictures.map(({ path, content }) => {
    const name = nameOf(plainPath(path));
    return { name, path: inZip(path), file: new File([content], name) };
  });
  const leftOut = [
    ...contents.faults.map(({ path, reason }): LeftOut => ({
      path: path === undefined ? found.path : inZip(path),
      reason,
      severity: 'problem',
    })),
    ...contents.passedOver
      .filter((path) => !isLitter(plainPath(path)))
      .map((path): LeftOut => {
        const reason = reasonAgainst(path);
        return { path: inZip(path), reason, severity: isNote(reason) ? 'note' : 'problem' };
      }),
  ];
  if (arrivals.length === 0 && leftOut.length === 0)
    leftOut.push({
      path: found.path,
      reason: 'There are no pictures in this zip.',
      severity: 'problem',
    });
  return { arrivals, jobFiles: [], clips: [], profiles: [], leftOut };
};

/** Sorts what was found; zips are opened. When `signal` fires it stops and returns what it has. */
const sift = async (found: readonly Found[], signal?: AbortSignal): Promise<Gathered> => {
  const arrivals: Arrival[] = [];
  const jobFiles: File[] = [];
  const clips: File[] = [];
  const profiles: File[] = [];
  const leftOut: LeftOut[] = [];
  if (isScene(found.map(({ path }) => path))) return sceneOf(found);
  for (const item of found) {
    if (signal?.aborted === true) break;
    if (isLitter(item.path)) continue;
    if (ZIP.test(item.path)) {
      const inside = await unpack(item, signal);
      if (inside.scene !== undefined) return inside;
      arrivals.push(...inside.arrivals);
      jobFiles.push(...inside.jobFiles);
      leftOut.push(...inside.leftOut);
    } else if (isProfileName(item.path)) profiles.push(item.file);
    else if (await isClip(item)) clips.push(item.file);
    else if (mayBePicture(item.path)) {
      arrivals.push({ name: nameOf(item.path), path: item.path, file: item.file });
    } else leftOut.push({ path: item.path, reason: reasonAgainst(item.path), severity: 'note' });
  }
  return { arrivals, jobFiles, clips, profiles, leftOut };
};

/** From a file input, a folder input or a paste. */
export const gatherFiles = (files: Iterable<File>, signal?: AbortSignal): Promise<Gathered> =>
  sift(
    Array.from(files, (file) => ({ path: plainPath(file.webkitRelativePath || file.name), file })),
    signal,
  );

const fileOfEntry = (entry: FileSystemFileEntry): Promise<File> =>
  new Promise((resolve, reject) => entry.file(resolve, reject));

/** `readEntries` gives a folder in portions (100 in Chromium); an empty one is the last. */
const entriesOf = async (folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> => {
  const reader = folder.createReader();
  const all: FileSystemEntry[] = [];
  for (;;) {
    const portion = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (portion.length === 0) return all;
    all.push(...portion);
  }
};

const walk = async (
  entry: FileSystemEntry,
  depth: number,
  found: Found[],
  leftOut: LeftOut[],
): Promise<void> => {
  const path = plainPath(entry.fullPath);
  if (isLitter(path)) return;
  if (found.length >= FILES_AT_MOST || depth > FOLDERS_DEEP_AT_MOST) {
    leftOut.push({
      path,
      severity: 'problem',
      reason:
        depth > FOLDERS_DEEP_AT_MOST
          ? `It lies more than ${FOLDERS_DEEP_AT_MOST} folders deep and was left out.`
          : `More than ${FILES_AT_MOST} files at once; this one was left out. Drop the folder of frames itself.`,
    });
    return;
  }
  try {
    if (entry.isFile) found.push({ path, file: await fileOfEntry(entry as FileSystemFileEntry) });
    else
      for (const child of await entriesOf(entry as FileSystemDirectoryEntry))
        await walk(child, depth + 1, found, leftOut);
  } catch {
    leftOut.push({
      path,
      severity: 'problem',
      reason: 'The browser was not allowed to read it. Copy it to another folder and add it again.',
    });
  }
};

/** From a drop, with the folders in it. */
export const gatherPicked = async (
  { entries, files }: Picked,
  signal?: AbortSignal,
): Promise<Gathered> => {
  const found = files.map((file): Found => ({ path: file.name, file }));
  const leftOut: LeftOut[] = [];
  for (const entry of entries) await walk(entry, 0, found, leftOut);
  const sifted = await sift(found, signal);
  return { ...sifted, leftOut: [...leftOut, ...sifted.leftOut] };
};
