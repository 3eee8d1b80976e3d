/**
 * The job file: one zip with everything of a job in it. Any zip program opens it.
 *
 *   tiltloom.json        says that this is a job and lists its pictures; always the first entry. It holds the
 *                        printer profile of the job's colours, if it has one
 *   job.json             the job's document, as src/job/schema/job.ts describes it
 *   originals/0001.png   the pictures as they were added, byte for byte
 *
 * docs/formats.md describes the format for the writers of other software.
 */
import * as v from 'valibot';
import { StudioError } from '../contract/errors.ts';
import { inFileName } from '../core/names/in-file-name.ts';
import { nameInText } from '../core/names/shown.ts';

export const BUNDLE_EXTENSION = '.tiltloom.zip';
export const BUNDLE_MIME = 'application/zip';
export const MANIFEST_PATH = 'tiltloom.json';
export const JOB_PATH = 'job.json';

/** Raised when an older studio could no longer read what is written. */
export const BUNDLE_FORMAT = 1;

/** Limits of a job file. A file beyond one of them is refused before anything is unpacked. */
export interface BundleLimits {
  readonly fileBytes: number;
  readonly entries: number;
  /** `tiltloom.json` and `job.json`, each. */
  readonly jsonBytes: number;
  readonly originalBytes: number;
  /** All entries together, unpacked. */
  readonly totalBytes: number;
  /** Most unpacked bytes of an entry for one packed byte: pictures hardly shrink at all. */
  readonly ratio: number;
}

/** A zip without the ZIP64 extension holds up to 4 GiB and 65 535 entries. */
export const bundleLimits: BundleLimits = {
  fileBytes: 2 ** 32 - 1,
  entries: 5000,
  jsonBytes: 16 * 2 ** 20,
  originalBytes: 2 ** 30,
  totalBytes: 2 ** 32,
  ratio: 200,
};

const idSchema = v.pipe(v.string(), v.regex(/^[A-Za-z0-9-]{8,64}$/, 'expected letters and digits'));

const originalSchema = v.looseObject({
  /** The id that the job uses for it. */
  id: idSchema,
  path: v.pipe(
    v.string(),
    v.regex(/^originals\/[a-z0-9-]{1,64}\.[a-z0-9]{1,8}$/, 'expected originals/NAME.TYPE'),
  ),
  /** Name of the file that was added: text to show, never a place to write to. */
  name: v.pipe(v.string(), v.maxLength(1000)),
  bytes: v.pipe(v.number(), v.safeInteger(), v.minValue(0)),
});

export const manifestSchema = v.looseObject({
  what: v.literal('Tiltloom job', 'it is not marked as a job'),
  format: v.pipe(v.number(), v.safeInteger()),
  savedAt: v.string(),
  originals: v.array(originalSchema),
  /** Printer profiles that the job uses. */
  profiles: v.optional(
    v.pipe(
      v.array(
        v.looseObject({
          id: idSchema,
          name: v.pipe(v.string(), v.maxLength(1000)),
          base64: v.string(),
        }),
      ),
      v.maxLength(20),
    ),
  ),
});

export type Manifest = v.InferOutput<typeof manifestSchema>;

/** A picture of a job with the id that the job uses for it. */
export interface Original {
  readonly id: string;
  readonly name: string;
  readonly file: Blob;
}

/** Why a job file was not opened, as one sentence or more. */
export const refuse = (
  fileName: string,
  reason: string,
  code: 'damaged' | 'too-large' | 'unsupported-variant' | 'not-a-picture' = 'damaged',
): StudioError =>
  new StudioError(
    code,
    `“${nameInText(fileName)}” was not opened. ${reason} Your work is as it was.`,
    fileName,
  );

export const inMegabytes = (bytes: number): string => {
  const megabytes = bytes / 2 ** 20;
  return `${megabytes < 10 ? Math.max(0.1, megabytes).toFixed(1) : Math.round(megabytes)} MB`;
};

/** What a job's file is called. */
export const bundleName = (jobName: string): string =>
  `${inFileName(jobName, 'Job')}${BUNDLE_EXTENSION}`;

/** Whether a file begins as a job file does, whatever its name: the manifest is the first entry. */
export const beginsAsBundle = async (file: Blob): Promise<boolean> => {
  const at = 30;
  const head = await file.slice(0, at + MANIFEST_PATH.length).text();
  return head.startsWith('PK\x03\x04') && head.endsWith(MANIFEST_PATH);
};

/** Whether a file is named as a job file, also when a browser has numbered it: `tram.tiltloom (1).zip`. */
export const isBundleName = (name: string): boolean => /\.tiltloom( ?\(\d+\))?\.zip$/i.test(name);
