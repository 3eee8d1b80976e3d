/** The page: paper, print and what is printed around it; and the rails as the lens is turned. */
import { switchWholePage } from '../../../job/edits/page.ts';
import { pageOf } from '../../../job/facts/page.ts';
import { Columns, Panel, Stack, SwitchedPanel } from '../../../ui/index.ts';
import { useChange, useJob, useUnits } from '../../studio.ts';
import { PageDrawing } from './PageDrawing.tsx';
import { PageFields } from './PageFields.tsx';
import { PrintSide } from './PrintSide.tsx';
import { RailsView } from './RailsView.tsx';

export const PagePanel = () => {
  const change = useChange();
  const units = useUnits();
  const { on, rails } = pageOf(useJob());
  return (
    <>
      <PrintSide />
      <SwitchedPanel
        title="Page"
        label="Weave"
        choices={['The picture alone', 'A whole page']}
        on={on}
        words="The file is the picture and no more. A whole page adds bleed, rails, marks and a label, and puts the print on its paper."
        onSwitch={(next) => void change(...switchWholePage(next, units))}
      >
        <Columns least={18} gap={4}>
          <Stack>
            <PageFields />
          </Stack>
          <PageDrawing />
        </Columns>
      </SwitchedPanel>
      {on && rails && (
        <Panel title="Rails under the lens">
          <RailsView />
        </Panel>
      )}
    </>
  );
};
