/** From the button to the finished files, one a tile. */
import { useState } from 'react';
import { canChooseFolder } from '../../../studio/keep/browser.ts';
import { weaveTiles } from '../../../studio/weave/tiles.ts';
import { ChoiceField, Row } from '../../../ui/index.ts';
import { FileTypeField } from '../../desk/FileTypeField.tsx';
import { HeldInMemory } from '../../desk/HeldInMemory.tsx';
import { MakeFile } from '../../desk/MakeFile.tsx';
import { TilesEnded } from '../../desk/TilesEnded.tsx';
import { useStudio } from '../../studio.ts';
import { MountPart } from '../MountPart.tsx';

export const WeaveTiles = () => {
  const studio = useStudio();
  const [where, setWhere] = useState<'here' | 'folder'>('here');
  return (
    <MountPart title="Weave the tiles">
      <Row gap="3 6" align="start">
        <FileTypeField />
        {canChooseFolder() && (
          <ChoiceField
            label="Save tiles to"
            choices={[
              { value: 'here', label: 'Here, then download' },
              { value: 'folder', label: 'A folder I choose' },
            ]}
            value={where}
            onChange={(value) => setWhere(value)}
          />
        )}
      </Row>
      <HeldInMemory toChosenFile={where === 'folder'} />
      <MakeFile
        kind="tiles"
        name="tiles"
        ended={TilesEnded}
        onWeave={(asked) => void weaveTiles(studio, where, asked)}
      />
    </MountPart>
  );
};
