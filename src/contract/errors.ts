/** Errors that cross from a worker to the page: plain data with a code that the page can act on. */

export const errorCodes = [
  /** The file is not a picture, or of a kind the studio does not read. */
  'not-a-picture',
  /** It says it is a picture but breaks off or contradicts itself. */
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
  /** Name of the file it is about, where there is one. */
  readonly file?: string;
}

/** The same as an Error, on either side of the wire. */
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

export const toWorkError = (error: unknown): WorkError => {
  if (error instanceof StudioError)
    return {
      code: error.code,
      message: error.message,
      ...(error.file === undefined ? {} : { file: error.file }),
    };
  return { code: 'internal', message: error instanceof Error ? error.message : String(error) };
};

export const fromWorkError = (error: WorkError): StudioError =>
  new StudioError(error.code, error.message, error.file);

/**
 * What a worker answers. Errors travel as plain data inside the answer, so no field of theirs is
 * lost on the wire and nothing depends on how the messaging library serialises exceptions.
 */
export type Reply<T> =
  | { readonly kind: 'done'; readonly value: T }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly error: WorkError };

/** How a long call ended. Being stopped is an outcome, not an error. */
export type Outcome<T> = { readonly done: true; readonly value: T } | { readonly done: false };
export const stopped: { readonly done: false } = { done: false };
