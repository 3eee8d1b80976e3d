/** What the page asks of the worker that reads colour profiles and makes tables of them. */
import type { Intent } from '../core/colour/icc/device-space.ts';
import type { Missed, Thinned } from '../core/colour/icc/look.ts';
import type { ProfileFacts } from '../core/colour/icc/profile.ts';
import type { Reply } from './errors.ts';

/** A profile as it was dropped. Its bytes may be anything. */
export interface ProfileFile {
  readonly name: string;
  readonly file: Blob;
}

export interface ReadProfileRequest extends ProfileFile {
  readonly id: string;
}

export interface FoundProfile extends ProfileFacts {
  /** Of its bytes: equal for equal profiles. */
  readonly profileId: string;
  /** The most ink that a dot can get, all channels together, %; left out where it has no inks. */
  readonly mostInk?: number;
}

/** A table for the kernels (core/colour/icc/device-table.ts), by reference. */
export interface TableBlob {
  /** Equal keys: the same table. */
  readonly key: string;
  readonly channels: 1 | 3 | 4;
  /** 16-bit numbers, lowest byte first. */
  readonly nodes: Blob;
}

export interface TableRequest extends ProfileFile {
  readonly id: string;
  readonly intent: Intent;
}

export interface PrintTable {
  readonly table: TableBlob;
  readonly facts: ProfileFacts;
  /** The profile's own bytes, to go into the file. */
  readonly profile: Uint8Array<ArrayBuffer>;
}

export interface LookRequest extends TableRequest {
  /** Shows the paper's own white; else white is as white as the screen's. */
  readonly paperWhite: boolean;
}

export interface MissedRequest {
  readonly id: string;
  readonly look: TableBlob;
  readonly pictures: readonly Thinned[];
}

export interface ColourWorker {
  /** Checks a profile and tries it. */
  readProfile(request: ReadProfileRequest): Promise<Reply<FoundProfile>>;
  /** From sRGB codes to the printer's numbers. */
  printTable(request: TableRequest): Promise<Reply<PrintTable>>;
  /** From sRGB codes to those of the print, and how far each is from what was wanted: ΔE00 in tenths. */
  lookTable(request: LookRequest): Promise<Reply<TableBlob>>;
  /** What of pictures the paper cannot show. */
  missedColours(request: MissedRequest): Promise<Reply<Missed>>;
  cancel(id: string): void;
}
