import { askToKeep, promisedNow } from '../../files/room.ts';

const ASKED = 'tiltloom-asked-to-keep';

/**
 * Asks the browser, once, to promise that it clears nothing: when a person's own frames arrive for the first time.
 * Some browsers ask the person. Later the person can ask under Jobs. Never rejects.
 */
export const askOnceToKeep = async (): Promise<void> => {
  try {
    if (localStorage.getItem(ASKED) !== null) return;
    localStorage.setItem(ASKED, 'yes');
  } catch {
    return;
  }
  if ((await promisedNow()) === 'not-promised') await askToKeep();
};
