import type { ShelfNotice } from '../../state/shelves.ts';
import { Notice } from '../../ui/index.ts';

/** What became of a shelf's entry. There from the start: a region that comes with its words is not read aloud. */
export const ShelfTold = ({ notice }: { readonly notice: ShelfNotice | undefined }) => (
  <div role="status">
    {notice !== undefined && (
      <Notice kind={notice.kind} title={notice.title}>
        {notice.lines.map((line, i) => (
          <p key={i}>{line}</p>
        ))}
      </Notice>
    )}
  </div>
);
