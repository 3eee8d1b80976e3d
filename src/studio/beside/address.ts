/** The page that a phone opens: the studio's own address, with the desk's code behind it. */

const START = '#/phone/';

/** @param base the studio as the phone reaches it */
export const phoneAddress = (base: string, code: string): string => {
  const { origin, pathname } = new URL(base);
  return `${origin}${pathname}${START}${code}`;
};

/** The desk's code in the page's address; undefined where it is no page for a phone. */
export const offeredIn = (hash: string): string | undefined =>
  hash.startsWith(START) ? hash.slice(START.length) : undefined;

/** Whether an address names the computer itself, which no other device can open. */
export const isThisComputer = (base: string): boolean =>
  /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])$/.test(new URL(base).hostname);

/** An address as a person types it, with what they leave out. Undefined if it is none. */
export const readAddress = (typed: string): string | undefined => {
  const text = typed.trim();
  const full = /^https?:\/\//i.test(text) ? text : `http://${text}`;
  try {
    return text === '' ? undefined : new URL(full).href;
  } catch {
    return undefined;
  }
};
