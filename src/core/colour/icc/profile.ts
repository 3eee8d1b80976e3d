/**
 * What a colour profile is, and whether a sheet can be converted with it. This is the studio's own check of header, tag
 * table and table sizes; the engine that converts runs in a worker and sees no profile that fails here.
 */
import type { DeviceSpace } from './device-space.ts';
import { deviceChannels } from './device-space.ts';
import { latin, signature, u32, wide } from './reader.ts';
import { checkColour, checkCurve, checkTable } from './tag-data.ts';
import type { Tag } from './tag-table.ts';
import { ProfileFault, checkedHeader, tagsOf } from './tag-table.ts';

export interface ProfileFacts {
  /** The name that its maker gave it; "unnamed profile" without one. */
  readonly name: string;
  readonly space: DeviceSpace;
  /** `printer`: made for one printer, ink and paper; `working`: a screen's or a plain colour space. */
  readonly use: 'printer' | 'working';
  /** "2.1". */
  readonly version: string;
  /** Whether it has tables for the intents, or one curve and matrix for all. */
  readonly hasTables: boolean;
}

const spaceNames: Readonly<Record<string, DeviceSpace>> = {
  GRAY: 'GRAY',
  'RGB ': 'RGB',
  CMYK: 'CMYK',
};

const refusedClasses: Readonly<Record<string, string>> = {
  scnr: 'a scanner or a camera',
  link: 'a fixed pair of devices',
  abst: 'an effect on colours',
  nmcl: 'named inks',
};

/** 9.2.41 profileDescriptionTag: version 4 text, or version 2 text. */
export const profileName = (profile: Uint8Array, tag: Pick<Tag, 'at' | 'length'>): string => {
  const { at, length } = tag;
  const room = (bytes: number, offset: number) =>
    Math.max(0, Math.min(bytes, length - offset, 200));
  if (signature(profile, at) === 'desc')
    return latin(profile, at + 12, room(u32(profile, at + 8), 12)).trim();
  if (signature(profile, at) !== 'mluc') return '';
  const offset = u32(profile, at + 24);
  return wide(profile, at + offset, room(u32(profile, at + 20), offset)).trim();
};

const useOf = (profile: Uint8Array, space: DeviceSpace): ProfileFacts['use'] => {
  const deviceClass = signature(profile, 12);
  if (deviceClass === 'prtr') return 'printer';
  const isWorking = deviceClass === 'mntr' || deviceClass === 'spac';
  // Print services ask for files in such a space, and a screen's profile is turned round without loss.
  if (isWorking && space !== 'CMYK') return 'working';
  const of = refusedClasses[deviceClass] ?? 'something else';
  throw new ProfileFault(
    `It is made for ${isWorking ? 'a screen with four inks' : of}, and cannot turn a picture into the printer’s numbers.`,
    'unsupported-variant',
  );
};

const spaceOf = (profile: Uint8Array): DeviceSpace => {
  const found = signature(profile, 16);
  const space = spaceNames[found];
  if (space !== undefined) return space;
  throw new ProfileFault(
    `It is for “${found.replace(/[^ -~]/g, '?').trim()}” colours; grey, RGB and CMYK are written here.`,
    'unsupported-variant',
  );
};

const versionOf = (profile: Uint8Array): string => {
  const [major, minor] = [profile[8]!, profile[9]! >> 4];
  if (major !== 2 && major !== 4)
    throw new ProfileFault(
      `It is of version ${major}.${minor}; versions 2 and 4 are read here.`,
      'unsupported-variant',
    );
  return `${major}.${minor}`;
};

const TABLES_TO_DEVICE = ['B2A0', 'B2A1', 'B2A2'];
const TABLES_FROM_DEVICE = ['A2B0', 'A2B1', 'A2B2'];
const CURVES = ['rTRC', 'gTRC', 'bTRC', 'kTRC'];
const COLOURS = ['rXYZ', 'gXYZ', 'bXYZ', 'wtpt', 'bkpt'];

const checkData = (profile: Uint8Array, tags: ReadonlyMap<string, Tag>, channels: number): void => {
  const each = (names: readonly string[], check: (tag: Tag) => void) => {
    for (const name of names) {
      const tag = tags.get(name);
      if (tag !== undefined) check(tag);
    }
  };
  each(TABLES_TO_DEVICE, (tag) => checkTable(profile, tag, channels, true));
  each(TABLES_FROM_DEVICE, (tag) => checkTable(profile, tag, channels, false));
  each(CURVES, (tag) => checkCurve(profile, tag));
  each(COLOURS, (tag) => checkColour(profile, tag));
};

/** What a profile without tables must have (8.3, 8.4). */
const needed: Readonly<Record<DeviceSpace, readonly string[]>> = {
  GRAY: ['kTRC'],
  RGB: ['rXYZ', 'gXYZ', 'bXYZ', 'rTRC', 'gTRC', 'bTRC'],
  CMYK: ['B2A0'],
};

/**
 * @param file the bytes of a file, which may hold anything
 * @throws ProfileFault with the reason, a sentence for the person
 */
export const readProfile = (file: Uint8Array): ProfileFacts => {
  const profile = checkedHeader(file);
  const version = versionOf(profile);
  const space = spaceOf(profile);
  const use = useOf(profile, space);
  const between = signature(profile, 20);
  if (between !== 'XYZ ' && between !== 'Lab ')
    throw new ProfileFault('It does not say how it counts colours: neither XYZ nor Lab.');
  const tags = tagsOf(profile);
  const hasTables = TABLES_TO_DEVICE.some((name) => tags.has(name));
  const missing = hasTables ? undefined : needed[space].find((name) => !tags.has(name));
  if (missing !== undefined)
    throw new ProfileFault(`Its part “${missing}” is missing: it cannot be printed through.`);
  checkData(profile, tags, deviceChannels[space]);
  const named = tags.get('desc');
  const name = named === undefined ? '' : profileName(profile, named);
  return { name: name || 'unnamed profile', space, use, version, hasTables };
};
