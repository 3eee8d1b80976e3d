import { useEffect, useState } from 'react';

/**
 * What comes later; undefined until it does. Asked for anew when `ask` or `after` is another, and what came
 * before stands until then.
 */
export const useComing = <T>(ask: () => Promise<T>, after?: unknown): T | undefined => {
  const [came, setCame] = useState<T>();
  useEffect(() => {
    let gone = false;
    ask().then(
      (value) => {
        if (!gone) setCame(() => value);
      },
      () => undefined, // The desk says that the disk does not answer, or that a part could not be loaded.
    );
    return () => {
      gone = true;
    };
  }, [ask, after]);
  return came;
};
