/** The page: paper, print and what is printed around it; and the rails as the lens is turned. */
import { switchWholePage } from '../../../job/edits/page.ts';
import { pageOf } from '../../../job/facts/page.ts';
import { Panel, SwitchedPanel } from '../../../ui/index.ts';
import { useChange, useJob, useView } from '../../studio.ts';
import { PageDrawing } from './PageDrawing.tsx';
import { PageFields } from './PageFields.tsx';
import { RailsView } from './RailsView.tsx';
import styles from './page.module.css';

export const PagePanel = () => {
  const change = useChange();
  const units = useView((view) => view.units);
  const { on } = pageOf(useJob());
  return (
    <>
      <SwitchedPanel
        title="Page"
        label="Weave"
        choices={['The picture alone', 'A whole page']}
        on={on}
        words="The file is the picture and no more. A whole page adds bleed, rails, marks and a label, and puts the print on its paper."
        onSwitch={(next) => void change(...switchWholePage(next, units))}
      >
        <div className={styles['page']}>
          <div className={styles['side']}>
            <PageFields />
          </div>
          <PageDrawing />
        </div>
      </SwitchedPanel>
      {on && (
        <Panel title="Rails under the lens">
          <RailsView />
        </Panel>
      )}
    </>
  );
};
