/** Which job was open last: each tab keeps its own over a reload, a new tab takes the browser's last. */
const KEY = 'tiltloom-open-job';

export const rememberOpen = (id: string): void => {
  for (const storage of ['sessionStorage', 'localStorage'] as const)
    try {
      globalThis[storage].setItem(KEY, id);
    } catch {
      // Nothing can be stored here: next time the newest job opens.
    }
};

/** In order of preference. */
export const lastOpen = (): string[] =>
  (['sessionStorage', 'localStorage'] as const).flatMap((storage) => {
    try {
      return globalThis[storage].getItem(KEY) ?? [];
    } catch {
      return [];
    }
  });
