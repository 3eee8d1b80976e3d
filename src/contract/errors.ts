/** Errors that cross from a worker to the page: plain data with a code that the page can act on. */

export const errorCodes = [
  /** The file is not a picture, or of a kind the studio does not read. */
  'not-a-picture',
  /** A picture that breaks off or contradicts itself. */
  'damaged',
  /** Readable in principle, but too large for this browser. */
  'too-large',
  /** A kind of compression or layout inside a known format that no decoder here reads. */
  'unsupported-variant',
  /** The frame could not be read again: moved, deleted, or permission withdrawn. */
  'file-gone',
  /** The disk is full or the browser's quota is reached. */
  'no-room',
  /** A worker died or did not answer. */
  'worker-lost',
  /** Anything else; the message says what. */
  'internal',
] as const;
export type ErrorCode = (typeof errorCodes)[number];

/** What is thrown across the contract. `message` is a sentence for the person. */
export interface WorkError {
  readonly code: ErrorCode;
  readonly message: string;
  /** Name of the file that caused it, if one did. */
  readonly file?: string;
}

/** A `WorkError` as an Error, for page and workers. */
export class StudioError extends Error {
  readonly code: ErrorCode;
  readonly file: string | undefined;

  constructor(code: ErrorCode, message: string, file?: string) {
    super(message);
    this.name = 'StudioError';
    this.code = code;
    this.file = file;
  }
}

/** The sentence of anything that was thrown. */
export const messageOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

export const toWorkError = (error: unknown): WorkError => {
  const message = messageOf(error);
  if (!(error instanceof StudioError)) return { code: 'internal', message };
  const { code, file } = error;
  return { code, message, ...(file === undefined ? {} : { file }) };
};

export const fromWorkError = (error: WorkError): StudioError =>
  new StudioError(error.code, error.message, error.file);

/**
 * A worker's answer. Errors are plain data in it, so that no field is lost and nothing depends on how the
 * messaging library serialises exceptions.
 */
export type Reply<T> =
  | { readonly kind: 'done'; readonly value: T }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly error: WorkError };

/** How a long call ended. A stop is an outcome, not an error. */
export type Outcome<T> = { readonly done: true; readonly value: T } | { readonly done: false };
export const stopped: { readonly done: false } = { done: false };
