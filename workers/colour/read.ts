/** A profile from the file that was dropped to the tables that are made of it; its faults become sentences. */
import type {
  FoundProfile,
  LookRequest,
  MissedRequest,
  PrintTable,
  ProfileFile,
  ReadProfileRequest,
  TableBlob,
  TableRequest,
} from '../../src/contract/colour.ts';
import { StudioError } from '../../src/contract/errors.ts';
import { deviceChannels, intents } from '../../src/core/colour/icc/device-space.ts';
import { INK_EDGE, mostInk } from '../../src/core/colour/icc/device-table.ts';
import type { Missed } from '../../src/core/colour/icc/look.ts';
import { missedIn } from '../../src/core/colour/icc/look.ts';
import { readProfile } from '../../src/core/colour/icc/profile.ts';
import {
  MOST_PROFILE_BYTES,
  ProfileFault,
  checkedHeader,
} from '../../src/core/colour/icc/tag-table.ts';
import { nameInText } from '../../src/core/names/shown.ts';
import { deviceTableOf } from '../device-tables.ts';
import type { CheckedProfile } from './engine-tables.ts';
import { lookNodes, printNodes, toDevice } from './engine-tables.ts';

/** Codes to try a profile with: black, white, the primaries and a middle grey. */
const TRIED = Uint8Array.from([
  ...[0, 0, 0, 255, 255, 255, 255, 0, 0, 0, 255, 0],
  ...[0, 0, 255, 128, 128, 128],
]);

const bytesOf = async ({ file }: ProfileFile): Promise<Uint8Array<ArrayBuffer>> => {
  if (file.size > MOST_PROFILE_BYTES)
    throw new ProfileFault(
      `It is larger than ${MOST_PROFILE_BYTES / 2 ** 20} MB, larger than any profile that is in use.`,
      'too-large',
    );
  return new Uint8Array(await file.arrayBuffer());
};

/** SHA-256 (FIPS 180-4), the first half of its digits. */
const idOf = async (bytes: Uint8Array<ArrayBuffer>): Promise<string> => {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest.subarray(0, 16), (byte) => byte.toString(16).padStart(2, '0')).join('');
};

/** @throws StudioError with the file's name and the reason */
const naming = async <T>(of: ProfileFile, work: () => Promise<T>): Promise<T> => {
  try {
    return await work();
  } catch (error) {
    if (error instanceof StudioError) throw error;
    const [code, reason] =
      error instanceof ProfileFault
        ? [error.code, error.message]
        : (['damaged', 'The colour engine broke off while it read it.'] as const);
    throw new StudioError(
      code,
      `“${nameInText(of.name)}” cannot be used as a printer profile. ${reason}`,
      of.name,
    );
  }
};

const checkedOf = async (
  of: ProfileFile,
): Promise<CheckedProfile & { bytes: Uint8Array<ArrayBuffer> }> => {
  // What stands behind its end is no part of it.
  const bytes = checkedHeader(await bytesOf(of)).slice();
  return { bytes, facts: readProfile(bytes) };
};

/** Whatever the intent, %. */
const mostInkOf = async (checked: CheckedProfile): Promise<number> => {
  const most: number[] = [];
  for (const intent of intents)
    most.push(mostInk({ channels: 4, nodes: await printNodes(checked, intent, INK_EDGE) }));
  return Math.round(100 * Math.max(...most));
};

export const found = (request: ReadProfileRequest): Promise<FoundProfile> =>
  naming(request, async () => {
    const checked = await checkedOf(request);
    await toDevice(checked, 'relative', TRIED);
    const { facts, bytes } = checked;
    return {
      ...facts,
      profileId: await idOf(bytes),
      ...(facts.space === 'CMYK' && { mostInk: await mostInkOf(checked) }),
    };
  });

const blobOf = (nodes: Uint16Array<ArrayBuffer>) => new Blob([nodes]);

export const printTable = (request: TableRequest): Promise<PrintTable> =>
  naming(request, async () => {
    const { intent } = request;
    const checked = await checkedOf(request);
    const { facts, bytes } = checked;
    const channels = deviceChannels[facts.space];
    const nodes = await printNodes(checked, intent);
    const key = `${await idOf(bytes)} ${intent}`;
    return { table: { key, channels, nodes: blobOf(nodes) }, facts, profile: bytes };
  });

export const lookTable = (request: LookRequest): Promise<TableBlob> =>
  naming(request, async () => {
    const { intent, paperWhite } = request;
    const checked = await checkedOf(request);
    const nodes = await lookNodes(checked, intent, paperWhite);
    const key = `${await idOf(checked.bytes)} ${intent} ${paperWhite ? 'paper' : 'screen'}`;
    return { key, channels: 4, nodes: blobOf(nodes) };
  });

export const missedColours = async ({ look, pictures }: MissedRequest): Promise<Missed> =>
  missedIn(pictures, await deviceTableOf(look));
