/** The printer profile of a paper. */
import { spaceWords } from '../../core/colour/icc/device-space.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { EntryOf } from '../../materials/shelves.ts';
import { dropProfile, keepProfile } from '../../studio/colour/paper-profile.ts';
import { Button, FileButton, Prose, Row } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';
import styles from './shelves.module.css';

export const PaperProfile = ({ paper }: { readonly paper: EntryOf['papers'] }) => {
  const studio = useStudio();
  const { profile } = paper;
  return (
    <div className={styles['note']}>
      <Prose>
        {profile === undefined
          ? 'No printer profile. With one (.icc, .icm) Weave can convert colours for this paper and printer.'
          : `Printer profile: ${nameInText(profile.name)}, ${spaceWords[profile.space]}. It holds for one printer, ink and setting.`}
      </Prose>
      <Row gap="2 3">
        <FileButton
          label={profile === undefined ? 'Add a profile' : 'Replace the profile'}
          accept=".icc,.icm"
          onFiles={([file]) => void keepProfile(studio, file, paper.id)}
        />
        {profile !== undefined && (
          <Button look="quiet" onClick={() => dropProfile(studio, paper)}>
            Remove the profile
          </Button>
        )}
      </Row>
    </div>
  );
};
