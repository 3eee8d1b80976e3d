/** How the dots of a file are converted: the table for the workers, the profile for the file. */
import { printTable } from '../../calls/colour.ts';
import type { PrintTable, TableBlob } from '../../contract/colour.ts';
import { StudioError } from '../../contract/errors.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import type { SheetColour, SheetInfo } from '../../core/encode/row-writer.ts';
import type { JobColour } from '../../job/schema/colour.ts';
import type { Job } from '../../job/schema/job.ts';
import { goneWords, noCmykInPng } from '../../job/words/colour.ts';
import type { Studio } from '../studio.ts';

export interface Conversion {
  readonly convert: TableBlob;
  readonly colour: SheetColour;
}

/** @throws StudioError where the file type cannot hold the job's colours */
export const checkHolds = ({ colour }: Pick<Job, 'colour'>, fileType: SheetFileType): void => {
  if (fileType === 'png' && colour?.space === 'CMYK')
    throw new StudioError('internal', noCmykInPng);
};

/** @throws StudioError with what to do, where it is not here */
export const profileOf = async (
  { disk }: Pick<Studio, 'disk'>,
  colour: JobColour,
): Promise<Blob> => {
  const stored = await (await disk.profiles()).get(colour.profileId);
  if (stored === undefined) throw new StudioError('file-gone', goneWords(colour), colour.profile);
  return stored;
};

/** The last table is kept: it takes a second, and is the same for the next weave. */
const tableFor = async (
  studio: Studio,
  colour: JobColour,
  signal?: AbortSignal,
): Promise<PrintTable | undefined> => {
  const { profileId, intent, profile } = colour;
  const key = `${profileId} ${intent}`;
  const had = studio.colours.print;
  if (had?.key === key) return had.made;
  const file = await profileOf(studio, colour);
  const outcome = await printTable({ name: profile, file, intent }, signal);
  if (!outcome.done) return undefined;
  studio.colours.print = { key, made: outcome.value };
  return outcome.value;
};

/** Undefined for a job in sRGB; `stopped` where the signal came first. @throws StudioError */
export const conversionOf = async (
  studio: Studio,
  { colour }: Pick<Job, 'colour'>,
  signal?: AbortSignal,
): Promise<Conversion | undefined | 'stopped'> => {
  if (colour === undefined) return undefined;
  const made = await tableFor(studio, colour, signal);
  if (made === undefined) return 'stopped';
  const { table, facts, profile } = made;
  const { space, use, name } = facts;
  return { convert: table, colour: { space, use, name, profile } };
};

/** What the file says of itself, and its dots, in those colours. */
export const inColours = <File extends { readonly info: SheetInfo }>(
  file: File,
  conversion: Conversion | undefined,
): File & { readonly convert?: TableBlob } =>
  conversion === undefined
    ? file
    : {
        ...file,
        info: { ...file.info, colour: conversion.colour },
        convert: conversion.convert,
      };
