/** Whether files are woven for paper under the lens or, mirrored, for film laid from behind. */
import { changePage } from '../../../job/edits/page.ts';
import { isMirrored } from '../../../job/facts/printer.ts';
import { ChoiceField, Panel, Prose } from '../../../ui/index.ts';
import { useEdit, useJob } from '../../studio.ts';

export const PrintSide = () => {
  const change = useEdit(changePage);
  const mirrored = isMirrored(useJob());
  return (
    <Panel title="Paper or film">
      <ChoiceField
        label="Print side"
        choices={[
          { value: 'front', label: 'Front: paper under the lens' },
          { value: 'mirrored', label: 'Mirrored: film laid from behind' },
        ]}
        value={mirrored ? 'mirrored' : 'front'}
        onChange={(side) =>
          void change('print side', { mirrored: side === 'mirrored' ? true : undefined })
        }
      />
      <Prose>
        {mirrored
          ? 'Sheets, pages, tiles and several prints are mirrored left to right, and so are pitch strip and ghost wedge, to be laid and read as the print is. The film lies between ribs and ink: add its thickness to the lens thickness, and prove the pitch on it. The proof shows the front.'
          : 'The printed side lies against the smooth side of the lens.'}
      </Prose>
    </Panel>
  );
};
