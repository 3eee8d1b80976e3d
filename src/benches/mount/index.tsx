/** The Mount bench: from the woven sheet to the print under its lens. Each caution stands at its step. */
import { Parts } from '../desk/Parts.tsx';
import { ChecklistPanel } from './checklist/ChecklistPanel.tsx';
import { GangPanel } from './gang/GangPanel.tsx';
import { PagePanel } from './page/PagePanel.tsx';
import { RunPanel } from './run/RunPanel.tsx';
import { TilesPanel } from './tiles/TilesPanel.tsx';

const Mount = () => (
  <Parts
    bench="mount"
    parts={[
      { name: 'steps', label: 'Steps', Part: ChecklistPanel },
      { name: 'page', label: 'Page', Part: PagePanel },
      { name: 'several', label: 'Several prints on one lens sheet', Part: GangPanel },
      { name: 'tiles', label: 'Tiles', Part: TilesPanel },
      { name: 'run', label: 'Print run', Part: RunPanel },
    ]}
  />
);
export default Mount;
