import { shownName } from '../core/names/shown.ts';

interface Props {
  readonly children: string;
}

/**
 * A name that comes from outside: a file's, a job's, a shelf entry's. It runs in its own direction and leaves that of
 * the words around it alone. In labels and sentences without elements: `nameInText`.
 */
export const Name = ({ children }: Props) => <bdi>{shownName(children)}</bdi>;
