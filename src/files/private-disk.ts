/** The way to the browser's private disk, for a page that does not wait for ever. */
import { StudioError } from '../contract/errors.ts';

/** A disk that had gone to sleep answers within some seconds (from memory); a person does not wait much longer for a page. */
const PATIENCE_MS = 8000;

/** It is there, and does not answer: what was to lie on it stays in the page and is tried again, as on a full disk. */
export class DiskSilent extends StudioError {
  constructor() {
    super(
      'no-room',
      'The browser’s private disk does not answer. What is new stays in this page until it does: leave the page open. What was kept before lies there still; reload the page once it answers.',
    );
    this.name = 'DiskSilent';
  }
}

// One disk a page, asked once at a time.
let asked: Promise<FileSystemDirectoryHandle> | undefined;
/** It was waited for in vain: until it answers nobody waits as long again. */
let isSilent = false;

const ask = (): Promise<FileSystemDirectoryHandle> => {
  const answer = navigator.storage.getDirectory();
  const done = () => {
    isSilent = false;
    asked = undefined;
  };
  answer.then(done, done);
  return answer;
};

/** Its root. @throws DiskSilent when it does not answer; else what the browser says where there is none. */
export const privateDisk = async (): Promise<FileSystemDirectoryHandle> => {
  asked ??= ask();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const silence = new Promise<never>((_resolve, reject) => {
    const giveUp = () => {
      isSilent = true;
      reject(new DiskSilent());
    };
    timer = setTimeout(giveUp, isSilent ? 0 : PATIENCE_MS);
  });
  try {
    return await Promise.race([asked, silence]);
  } finally {
    clearTimeout(timer);
  }
};

/** Whether it does not answer, as far as is known. */
export const isDiskSilent = (): boolean => isSilent;
