/**
 * Parts that are loaded when they are first wanted, and do not come: the page stands, says why, and says what
 * to do. It happens where the browser keeps no version of the studio and the server's has changed or is away.
 */
import type { ComponentType, LazyExoticComponent } from 'react';
import { createElement, lazy } from 'react';
import { workStore } from '../../state/work.ts';
import { Missing } from './LostPart.tsx';

/** A part of the page. One that cannot be loaded shows so in its place, and the desk says why. */
export const part = <P extends object>(
  load: () => Promise<{ default: ComponentType<P> }>,
): LazyExoticComponent<ComponentType<P>> =>
  lazy(() => load().catch(() => ({ default: () => createElement(Missing) })));

/** What the server has now, past every cache and keeper. */
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

/** From now on tells of every part that does not come, whoever asked for it. */
export const tellLostParts = (): void => {
  addEventListener('vite:preloadError', () => {
    void whyLost().then((lostPart) => workStore.getState().set({ lostPart }));
  });
};
