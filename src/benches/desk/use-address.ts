import { useEffect, useState } from 'react';

/**
 * Address of a picture while it is shown; undefined until it was opened, and where it cannot be.
 * @param open stays the same as long as the picture does.
 */
export const useAddress = (open: () => Promise<Blob | undefined>): string | undefined => {
  const [shown, setShown] = useState<{ readonly of: typeof open; readonly href: string }>();
  useEffect(() => {
    let href: string | undefined;
    let gone = false;
    open().then(
      (picture) => {
        if (gone || picture === undefined) return;
        href = URL.createObjectURL(picture);
        setShown({ of: open, href });
      },
      () => undefined, // Gone from the disk: words beside the picture say so.
    );
    return () => {
      gone = true;
      if (href !== undefined) URL.revokeObjectURL(href);
    };
  }, [open]);
  return shown?.of === open ? shown.href : undefined;
};
