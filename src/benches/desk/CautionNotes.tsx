/** Cautions that stand beside the advice they belong to. */
import type { CautionKind } from '../../job/facts/mount/step.ts';
import { cautionWords } from '../../job/words/cautions.ts';
import { Notice } from '../../ui/index.ts';

export const CautionNotes = ({ kinds }: { readonly kinds: readonly CautionKind[] }) =>
  kinds.map((kind) => (
    <Notice key={kind} kind="caution" title={cautionWords[kind].of}>
      {cautionWords[kind].say}
    </Notice>
  ));
