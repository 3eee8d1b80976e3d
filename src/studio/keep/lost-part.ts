/**
 * Says why a part of the studio that is loaded on demand did not load. This happens if the browser keeps no version
 * of the studio and the server has another version or is away.
 */
import type { Floor } from '../floor.ts';
import { ownScript } from './updates.ts';

/** Asks the server itself, past every cache and the service worker. */
const whyLost = async (): Promise<'newer' | 'unreachable' | 'unknown'> => {
  try {
    const answer = await fetch(`./?asked=${Date.now()}`, { cache: 'no-store' });
    if (!answer.ok) return 'unreachable';
    const name = ownScript()?.split('/').at(-1);
    return name === undefined || (await answer.text()).includes(name) ? 'unknown' : 'newer';
  } catch {
    return 'unreachable';
  }
};

/** Reports every part that fails to load from now on. */
export const tellLostParts = ({ work }: Floor): void => {
  addEventListener('vite:preloadError', () => {
    void whyLost().then((lostPart) => work.setState({ lostPart }));
  });
};
