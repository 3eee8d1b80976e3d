/**
 * Shared parts of the page. They know core and nothing else: the document comes in through props.
 *
 * The desk draws the bench's name as the page's `h1`; a bench begins at `h2` (`Panel` brings one).
 * Colours, type and gaps: the custom properties of tokens.css. `unseen` is a global class for text
 * that is only to be heard, `over-all` for a radio or box that lies over what stands for it. Pictures lie on
 * `var(--picture-ground)`. Parts are laid out by `Stack`, `Row`, `Columns` and `Fields`, and explained by
 * `Prose`; a style sheet of its own says only what is a part's own.
 */
export { BlankField } from './BlankField.tsx';
export { BlankMeasure } from './BlankMeasure.tsx';
export { Button, buttonClass } from './Button.tsx';
export { CardList } from './cards/CardList.tsx';
export { ChoiceField } from './ChoiceField.tsx';
export { FieldBox } from './FieldBox.tsx';
export { Figure } from './Figure.tsx';
export { FileButton, FileDrop } from './FileDrop.tsx';
export { FiguresTable } from './FiguresTable.tsx';
export { Fold } from './Fold.tsx';
export { focusIfLost } from './focus-if-lost.ts';
export { HeldFocus } from './HeldFocus.tsx';
export { Columns, Fields, Row, Stack } from './Layout.tsx';
export { MeasureField } from './MeasureField.tsx';
export { Meanings } from './Meaning.tsx';
export { ModalWindow } from './ModalWindow.tsx';
export { Name } from './Name.tsx';
export { Notice, NoticeMark } from './Notice.tsx';
export type { NoticeKind } from './Notice.tsx';
export { Panel } from './Panel.tsx';
export { ProgressBar } from './ProgressBar.tsx';
export { Prose } from './Prose.tsx';
export { ScrollBox } from './ScrollBox.tsx';
export { SelectField } from './SelectField.tsx';
export { Slider } from './Slider.tsx';
export { SwitchedPanel } from './SwitchedPanel.tsx';
export { Table } from './Table.tsx';
export { TextField } from './TextField.tsx';
export { ToScale } from './ToScale.tsx';
export { UnderWay } from './UnderWay.tsx';
export { useDraft } from './use-draft.ts';
export { useFileDrop, useNoStrayDrops } from './use-file-drop.ts';
export { useGrip } from './use-grip.ts';
export { useModal } from './use-modal.ts';
export type { GripPlace } from './use-grip.ts';
