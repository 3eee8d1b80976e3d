/** The Mount bench: from the woven sheet to the print under its lens. */
import { Stack } from '../../ui/index.ts';
import { Parts } from '../desk/Parts.tsx';
import { Cautions } from './Cautions.tsx';
import { ChecklistPanel } from './checklist/ChecklistPanel.tsx';
import { GangPanel } from './gang/GangPanel.tsx';
import { PagePanel } from './page/PagePanel.tsx';
import { TilesPanel } from './tiles/TilesPanel.tsx';

const Mount = () => (
  <Stack gap={5}>
    <Parts
      bench="mount"
      parts={[
        { name: 'steps', label: 'Steps', Part: ChecklistPanel },
        { name: 'page', label: 'Page', Part: PagePanel },
        { name: 'several', label: 'Several prints on one lens sheet', Part: GangPanel },
        { name: 'tiles', label: 'Tiles', Part: TilesPanel },
      ]}
    />
    <Cautions />
  </Stack>
);
export default Mount;
