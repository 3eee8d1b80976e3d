/** What kind of file all that is woven becomes. */
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import { ChoiceField } from '../../ui/index.ts';
import { useView } from '../studio.ts';

const choices = (Object.keys(sheetFileTypes) as SheetFileType[]).map((value) => ({
  value,
  label: sheetFileTypes[value].label,
}));

export const FileTypeField = () => {
  const fileType = useView((view) => view.fileType);
  const set = useView((view) => view.set);
  return (
    <ChoiceField
      label="File type"
      choices={choices}
      value={fileType}
      onChange={(value) => set({ fileType: value })}
    />
  );
};
