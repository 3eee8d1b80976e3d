/**
 * Says why a part of the studio that is loaded on demand did not load. It happens where the browser keeps
 * no version of the studio and the server's has changed or is away.
 */
import type { Floor } from '../floor.ts';

/** What the server has now, past every cache and the service worker. */
const whyLost = async (): Promise<'newer' | 'unreachable' | 'unknown'> => {
  const own = document.querySelector<HTMLScriptElement>('script[type="module"][src]')?.src;
  try {
    const answer = await fetch(`./?asked=${Date.now()}`, { cache: 'no-store' });
    if (!answer.ok) return 'unreachable';
    const name = own?.split('/').at(-1);
    return name === undefined || (await answer.text()).includes(name) ? 'unknown' : 'newer';
  } catch {
    return 'unreachable';
  }
};

/** From now on reports every part that fails to load, whoever asked for it. */
export const tellLostParts = ({ work }: Floor): void => {
  addEventListener('vite:preloadError', () => {
    void whyLost().then((lostPart) => work.setState({ lostPart }));
  });
};
