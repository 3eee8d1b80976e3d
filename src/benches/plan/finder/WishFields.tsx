/** What the lens is to do. Everything has a likely value, and can be left as it is. */
import { lengthMeasure, plainMeasure } from '../../../core/units/measure.ts';
import type { ChangeOf } from '../../../job/schema/changed.ts';
import { lensWishOf } from '../../../job/facts/lens-wish.ts';
import type { KeptLensWish } from '../../../job/schema/lens-wish.ts';
import { BlankMeasure, ChoiceField, Fields, MeasureField } from '../../../ui/index.ts';
import { useJob, useUnits, useView } from '../../studio.ts';

const uses = [
  { value: 'depth', label: 'Depth' },
  { value: 'flip', label: 'A flip' },
  { value: 'animation', label: 'A movement' },
] as const;

const asIsComfortable = 'Empty: as deep as is comfortable.';

interface Props {
  edit(label: string, change: ChangeOf<KeptLensWish>): string | undefined;
}

export const WishFields = ({ edit }: Props) => {
  const wish = lensWishOf(useJob());
  const units = useUnits();
  const mark = useView((view) => view.currencyMark);
  const length = lengthMeasure(units, 10, 1);
  return (
    <>
      <ChoiceField
        label="What for"
        choices={uses}
        value={wish.use}
        onChange={(use) => void edit('what for', { use })}
      />
      <Fields least={9.5}>
        <MeasureField
          label="From nearest"
          value={wish.nearMm}
          measure={length}
          onCommit={(nearMm) => edit('from nearest', { nearMm })}
        />
        <MeasureField
          label="To farthest"
          value={wish.farMm}
          measure={length}
          onCommit={(farMm) =>
            farMm < wish.nearMm
              ? 'The farthest must not be nearer than the nearest.'
              : edit('to farthest', { farMm })
          }
        />
        {wish.use === 'flip' && (
          <MeasureField
            label="Pictures"
            value={wish.pictures}
            measure={plainMeasure(1, 0)}
            onCommit={(pictures) => edit('pictures', { pictures })}
          />
        )}
        {wish.use === 'depth' && (
          <>
            <BlankMeasure
              label="Depth in front"
              value={wish.frontMm}
              measure={length}
              hint={wish.behindMm === undefined ? asIsComfortable : 'Empty: none.'}
              onCommit={(frontMm) => edit('depth in front', { frontMm })}
            />
            <BlankMeasure
              label="Depth behind"
              value={wish.behindMm}
              measure={length}
              hint={wish.frontMm === undefined ? asIsComfortable : 'Empty: none.'}
              onCommit={(behindMm) => edit('depth behind', { behindMm })}
            />
          </>
        )}
        <BlankMeasure
          label="A sheet may cost"
          value={wish.mostPrice}
          measure={plainMeasure(1, 2, mark)}
          hint="Empty: no matter."
          onCommit={(mostPrice) => edit('a sheet may cost', { mostPrice })}
        />
      </Fields>
    </>
  );
};
