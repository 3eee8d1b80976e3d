/** Puts light or dark on the page's root, where tokens.css looks, and follows the machine if asked to. */
export type ThemeChoice = 'system' | 'light' | 'dark';

const darkMachine = '(prefers-color-scheme: dark)';

/** Returns what ends the following. */
export const followTheme = (choice: ThemeChoice): (() => void) => {
  const machine = matchMedia(darkMachine);
  const put = () => {
    const dark = choice === 'dark' || (choice === 'system' && machine.matches);
    document.documentElement.dataset['theme'] = dark ? 'dark' : 'light';
  };
  put();
  if (choice !== 'system') return () => undefined;
  machine.addEventListener('change', put);
  return () => machine.removeEventListener('change', put);
};
