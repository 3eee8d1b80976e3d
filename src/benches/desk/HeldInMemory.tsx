/** Said before a weave where it ends in memory: a large sheet wants much of it, and a closed page loses it. */
import { useEffect, useState } from 'react';
import { canChooseFile, hasPrivateDisk } from '../../studio/keep/browser.ts';

export const HeldInMemory = ({ toChosenFile }: { readonly toChosenFile: boolean }) => {
  const [held, setHeld] = useState(false);
  useEffect(() => {
    let gone = false;
    void hasPrivateDisk().then((has) => {
      if (!gone) setHeld(!has);
    });
    return () => {
      gone = true;
    };
  }, []);
  if (!held || toChosenFile) return null;
  return (
    <p>
      This browser has no private disk to write to: what is woven is held in memory until you save
      it, and goes with the page.
      {canChooseFile() && ' A file of your choice is written to as it is woven.'}
    </p>
  );
};
