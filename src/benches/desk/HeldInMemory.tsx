/** Said before a weave where it ends in memory: a large sheet wants much of it, and a closed page loses it. */
import { canChooseFile, hasPrivateDisk } from '../../studio/keep/browser.ts';
import { useComing } from './use-coming.ts';

export const HeldInMemory = ({ toChosenFile }: { readonly toChosenFile: boolean }) => {
  const held = useComing(hasPrivateDisk) === false;
  if (!held || toChosenFile) return null;
  return (
    <p>
      This browser has no private disk to write to: what is woven is held in memory until you save
      it, and goes with the page.
      {canChooseFile() && ' A file of your choice is written to as it is woven.'}
    </p>
  );
};
