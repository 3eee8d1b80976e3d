/** The Mount bench: from the woven sheet to the print under its lens. */
import { Stack } from '../../ui/index.ts';
import { Cautions } from './Cautions.tsx';
import { ChecklistPanel } from './checklist/ChecklistPanel.tsx';
import { GangPanel } from './gang/GangPanel.tsx';
import { PagePanel } from './page/PagePanel.tsx';
import { TilesPanel } from './tiles/TilesPanel.tsx';

const parts = [PagePanel, GangPanel, TilesPanel, ChecklistPanel, Cautions];

const Mount = () => (
  <Stack gap={5}>
    {parts.map((Part, place) => (
      <Part key={place} />
    ))}
  </Stack>
);
export default Mount;
