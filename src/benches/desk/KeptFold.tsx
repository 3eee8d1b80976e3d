/** A part of a bench that is wanted seldom: a press away, and open for who opened it. */
import type { ReactNode } from 'react';
import { Fold } from '../../ui/index.ts';
import { usePartShown } from './use-parts.ts';

interface Props {
  /** By this it is remembered: the bench and what is in it. */
  readonly name: string;
  readonly summary: ReactNode;
  readonly children: ReactNode;
}

export const KeptFold = ({ name, summary, children }: Props) => {
  const [state, set] = usePartShown(`fold ${name}`);
  const isOpen = state === 'open';
  return (
    <Fold
      summary={summary}
      open={isOpen}
      onToggle={(open) => {
        if (open !== isOpen) set(open ? 'open' : '');
      }}
    >
      {children}
    </Fold>
  );
};
