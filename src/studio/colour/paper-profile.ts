/** Keeps a printer profile with a paper on the shelf, and takes it off again. */
import { readProfile } from '../../calls/colour.ts';
import { messageOf } from '../../contract/errors.ts';
import type { FoundProfile } from '../../contract/colour.ts';
import { spaceWords } from '../../core/colour/icc/device-space.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { PaperEntry, PaperProfile } from '../../materials/shelves.ts';
import { addEntry, changeEntry, findEntry, freeName } from '../../materials/shelves.ts';
import { newPaper } from '../../materials/use-in-job.ts';
import type { ShelfNotice } from '../../state/shelves.ts';
import type { Studio } from '../studio.ts';

const entryOf = ({ profileId, name, space, use, mostInk }: FoundProfile): PaperProfile => ({
  id: profileId,
  name: name.slice(0, 200),
  space,
  use,
  ...(mostInk === undefined ? {} : { mostInk }),
});

const keptNotice = (
  { name, space, version, use, mostInk }: FoundProfile,
  paper: string,
  isNew: boolean,
): ShelfNotice => ({
  kind: 'info',
  title: `“${nameInText(name)}” is kept with ${nameInText(paper)}`,
  lines: [
    `${spaceWords[space]}, version ${version}.${mostInk === undefined ? '' : ` It asks for at most ${mostInk} % of ink.`} On Weave, under Colours, sheets can be converted with it.`,
    ...(isNew ? ['It got a paper of its own: give that its name and size.'] : []),
    ...(use === 'working'
      ? [
          'It is not made for a printer and paper, but for a screen or as a plain colour space: right only for print services that ask for it.',
        ]
      : []),
  ],
});

/** The paper to keep it with: the one that is given, one that has it already, or a new one of its name. */
const paperFor = ({ shelves: store }: Studio, found: FoundProfile, paperId: string | undefined) => {
  const { shelves } = store.getState();
  const given = findEntry(shelves, 'papers', paperId);
  const had = given ?? shelves.papers.find(({ profile }) => profile?.id === found.profileId);
  if (had !== undefined) return { paper: had, isNew: false };
  const fresh: PaperEntry = {
    ...newPaper(shelves, crypto.randomUUID()),
    name: freeName(shelves, 'papers', found.name.slice(0, 80)),
  };
  return { paper: fresh, isNew: true };
};

/**
 * Never rejects: what is wrong is told at the shelves, which stay as they were.
 * @param paperId left out: a paper that has it, or a new one
 * @returns the id of the paper that it lies with
 */
export const keepProfile = async (
  studio: Studio,
  file: File,
  paperId?: string,
): Promise<{ readonly id: string; readonly isNew: boolean } | undefined> => {
  const { shelves: store, disk } = studio;
  try {
    store.getState().tell({ kind: 'info', title: `Reading ${nameInText(file.name)} …`, lines: [] });
    const outcome = await readProfile({ name: file.name, file });
    if (!outcome.done) return undefined;
    const found = outcome.value;
    const bytes = new Blob([await file.arrayBuffer()], { type: 'application/vnd.iccprofile' });
    await (await disk.profiles()).put(found.profileId, bytes);
    const { paper, isNew } = paperFor(studio, found, paperId);
    const { shelves, change, tell } = store.getState();
    const profile = entryOf(found);
    const label = `profile of ${nameInText(paper.name)}`;
    if (isNew) change(label, addEntry(shelves, 'papers', { ...paper, profile }));
    else {
      const changed = changeEntry(shelves, 'papers', paper.id, { profile });
      if (!changed.ok) throw new Error(changed.message);
      change(label, changed.shelves);
    }
    tell(keptNotice(found, paper.name, isNew));
    return { id: paper.id, isNew };
  } catch (error) {
    store.getState().tell({
      kind: 'problem',
      title: `${nameInText(file.name)} was not kept`,
      lines: [`${messageOf(error)} Your shelves are as they were.`],
    });
    return undefined;
  }
};

/** Its bytes stay: jobs may use it, and undo brings it back. */
export const dropProfile = ({ shelves: store }: Studio, paper: PaperEntry): void => {
  const { shelves, change } = store.getState();
  const changed = changeEntry(shelves, 'papers', paper.id, { profile: undefined });
  if (changed.ok) change(`removing the profile of ${nameInText(paper.name)}`, changed.shelves);
};
