/** Which job was open last: a reloaded tab opens its own again, a new tab the browser's last one. */
const KEY = 'tiltloom-open-job';

export const rememberOpen = (id: string): void => {
  for (const storage of ['sessionStorage', 'localStorage'] as const)
    try {
      globalThis[storage].setItem(KEY, id);
    } catch {
      // Without storage the newest job opens next time.
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
