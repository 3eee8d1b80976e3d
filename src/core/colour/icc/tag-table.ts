/** The header and the tag table of a colour profile, checked before anything else reads it (ICC.1:2022, 7.2 and 7.3). */
import { signature, u32 } from './reader.ts';

/** Where the data of a tag lie, bytes. */
export interface Tag {
  readonly name: string;
  readonly at: number;
  readonly length: number;
}

/** Thrown by the checks; its message is the reason, a sentence. */
export class ProfileFault extends Error {
  readonly code: 'damaged' | 'too-large' | 'unsupported-variant';

  constructor(message: string, code: ProfileFault['code'] = 'damaged') {
    super(message);
    this.code = code;
  }
}

/** Those for presses, with large tables, take a few megabytes. */
export const MOST_PROFILE_BYTES = 2 ** 24;

const HEADER_BYTES = 128;
const ENTRY_BYTES = 12;
/** Profiles have some ten to thirty tags. */
const MOST_TAGS = 200;
/** The signature of its type and four bytes that are reserved (10.1). */
const LEAST_TAG_BYTES = 8;

/** @throws ProfileFault for what is no profile, breaks off, or is beyond all size. @returns its own bytes */
export const checkedHeader = (file: Uint8Array): Uint8Array => {
  if (file.length > MOST_PROFILE_BYTES)
    throw new ProfileFault(
      `It is larger than ${MOST_PROFILE_BYTES / 2 ** 20} MB, larger than any profile that is in use.`,
      'too-large',
    );
  if (file.length < HEADER_BYTES + 4 || signature(file, 36) !== 'acsp')
    throw new ProfileFault('It is no colour profile: these have “acsp” at byte 36.');
  const length = u32(file, 0);
  if (length > file.length)
    throw new ProfileFault(
      `It breaks off: it should be ${length} bytes long, and is ${file.length}.`,
    );
  if (length < HEADER_BYTES + 4)
    throw new ProfileFault(`It says that it is ${length} bytes long, shorter than its own header.`);
  return file.subarray(0, length);
};

/** Tags may share their data, whole, but not lie across each other, nor over the table. */
const checkPlaces = (tags: readonly Tag[]): void => {
  const inOrder = [...tags].sort((a, b) => a.at - b.at);
  let before: Tag | undefined;
  for (const tag of inOrder) {
    if (before !== undefined && tag.at !== before.at && tag.at < before.at + before.length)
      throw new ProfileFault(`Its parts “${before.name}” and “${tag.name}” lie across each other.`);
    if (before === undefined || tag.at !== before.at || tag.length > before.length) before = tag;
  }
};

/** @throws ProfileFault */
export const tagsOf = (profile: Uint8Array): ReadonlyMap<string, Tag> => {
  const count = u32(profile, HEADER_BYTES);
  if (count > MOST_TAGS)
    throw new ProfileFault(`It lists ${count} parts; no profile has more than ${MOST_TAGS}.`);
  const first = HEADER_BYTES + 4 + count * ENTRY_BYTES;
  if (first > profile.length) throw new ProfileFault('Its list of parts breaks off.');
  const tags = new Map<string, Tag>();
  for (let i = 0; i < count; i += 1) {
    const entry = HEADER_BYTES + 4 + i * ENTRY_BYTES;
    const name = signature(profile, entry).replace(/[^ -~]/g, '?');
    const at = u32(profile, entry + 4);
    const length = u32(profile, entry + 8);
    if (at < first || length < LEAST_TAG_BYTES || at + length > profile.length)
      throw new ProfileFault(
        `Its part “${name}” should lie from byte ${at} for ${length} bytes, which is not inside it.`,
      );
    if (tags.has(name)) throw new ProfileFault(`It lists its part “${name}” twice.`);
    tags.set(name, { name, at, length });
  }
  checkPlaces([...tags.values()]);
  return tags;
};
