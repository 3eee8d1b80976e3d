/** To a bench, and to the part of it that is meant. */
import type { Remedy } from '../../job/findings/finding.ts';
import { usePartShown } from './use-parts.ts';

interface Props extends Extract<Remedy, { goTo: string }> {
  readonly className?: string;
}

export const BenchLink = ({ label, goTo, part, className }: Props) => {
  const [, choose] = usePartShown(goTo);
  return (
    <a
      className={className}
      href={`#/${goTo}`}
      onClick={() => {
        if (part !== undefined) choose(part);
      }}
    >
      {label}
    </a>
  );
};
