/**
 * Asks the browser to promise that nothing is cleared, at the moment from which there is something to
 * lose: when a person's own frames have come in for the first time. Some browsers ask the person.
 */
import { askToKeep, promisedNow } from '../../files/room.ts';

const ASKED = 'tiltloom-asked-to-keep';

/** Once in this browser; later under Jobs, at the person's own wish. Never rejects. */
export const askOnceToKeep = async (): Promise<void> => {
  try {
    if (localStorage.getItem(ASKED) !== null) return;
    localStorage.setItem(ASKED, 'yes');
  } catch {
    return;
  }
  if ((await promisedNow()) === 'not-promised') await askToKeep();
};
