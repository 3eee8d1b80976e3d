/** Which job was open last: each tab keeps its own over a reload, a new tab takes the browser's last. */
const KEY = 'tiltloom-open-job';

export const rememberOpen = (id: string): void => {
  for (const storage of ['sessionStorage', 'localStorage'] as const)
    try {
      globalThis[storage].setItem(KEY, id);
    } catch {
      // Then the newest job opens next time.
    }
};

/** Best first. */
export const lastOpen = (): string[] =>
  (['sessionStorage', 'localStorage'] as const).flatMap((storage) => {
    try {
      return globalThis[storage].getItem(KEY) ?? [];
    } catch {
      return [];
    }
  });
