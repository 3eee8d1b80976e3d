/** The ghost removal in force: what it takes away, what it costs, what it clips, and how to stop it. */
import { trimmed } from '../../../core/units/format.ts';
import { percentMeasure } from '../../../core/units/measure.ts';
import { chooseContrast, removeTrim, typeLeak } from '../../../job/edits/wedge.ts';
import { clippedShare, leftByTrim } from '../../../job/facts/ghost.ts';
import type { GhostTrimOfJob } from '../../../job/schema/ghost.ts';
import {
  Button,
  ChoiceField,
  Fields,
  Figure,
  FiguresTable,
  MeasureField,
  Prose,
} from '../../../ui/index.ts';
import { useChange, useWork } from '../../studio.ts';
import { useEditOrRefusal } from '../use-edit-or-refusal.ts';

const percent = (share: number) => `${trimmed(100 * share, 1)} %`;
const leakMeasure = percentMeasure(1);

const Cost = ({ trim }: { readonly trim: GhostTrimOfJob }) => {
  const { white, black } = leftByTrim(trim);
  const c = trimmed(trim.leak, 3);
  const lowered = trim.contrast === 'lowered';
  return (
    <>
      <Figure
        label="White as seen"
        value={`${percent(white)} of paper`}
        relation={`1 / (1 + c) = 1 / (1 + ${c}) = ${trimmed(white, 3)}`}
      >
        A slot gives up the light that its neighbours lend it, so white comes to what a sheet
        without ghost removal would show of a single white slot.
      </Figure>
      <Figure
        label="Black as seen"
        value={`${percent(black)} of paper`}
        relation={
          lowered
            ? `c / (1 + c) = ${c} / (1 + ${c}) = ${trimmed(black, 3)}`
            : 'D = (I − c J) / (1 − c²), cut off at black and at paper white'
        }
      >
        {lowered
          ? 'Every picture I is lifted to c + (1 − c) I first: then there is always enough light to take away, and nothing clips.'
          : 'Black stays black; where the neighbour is brighter than can be taken away, a ghost stays.'}
      </Figure>
      <Figure
        label="Contrast it costs"
        value={percent(1 - (white - black))}
        relation={`1 − (${trimmed(white, 3)} − ${trimmed(black, 3)}) = ${trimmed(1 - white + black, 3)}`}
      >
        Of the paper’s whole range of light, in linear light.
      </Figure>
    </>
  );
};

const ClippedCount = () => {
  const clipped = useWork((work) => work.ghostClipped);
  if (clipped === undefined)
    return <Prose>Clipped samples are counted once the frames are prepared.</Prose>;
  const { all, low, high } = clippedShare(clipped);
  return (
    <>
      <Figure
        label="Clipped"
        value={percent(all)}
        relation={`${percent(low)} at black, ${percent(high)} at paper white`}
      >
        Samples of the slots’ pictures for which ghost removal asks for less than no light or more
        than the paper’s, counted in a quarter of their lines.
      </Figure>
      <FiguresTable
        caption="Clipped, picture by picture"
        head={['Picture', 'At black', 'At white', 'Samples counted']}
        rows={clipped.map((one, picture) => {
          const share = clippedShare([one]);
          return [String(picture + 1), percent(share.low), percent(share.high), one.samples];
        })}
      />
    </>
  );
};

export const TrimPart = ({ trim }: { readonly trim: GhostTrimOfJob }) => {
  const change = useChange();
  const make = useEditOrRefusal();
  return (
    <>
      <Fields least={11}>
        <MeasureField
          label="Leak removed"
          value={trim.leak}
          measure={leakMeasure}
          hint={
            trim.plusMinus === undefined
              ? 'Of a slot’s own light.'
              : `Of a slot’s own light; read to ±${trimmed(100 * trim.plusMinus, 1)} %.`
          }
          onCommit={(leak) => make(typeLeak(leak))}
        />
      </Fields>
      <ChoiceField
        label="Contrast"
        choices={[
          { value: 'lowered', label: 'Lowered' },
          { value: 'kept', label: 'Kept' },
        ]}
        value={trim.contrast}
        onChange={(contrast) => void change(...chooseContrast(contrast))}
      />
      <div>
        <Cost trim={trim} />
        <ClippedCount />
      </div>
      <div>
        <Button onClick={() => void change(...removeTrim())}>Turn ghost removal off</Button>
      </div>
    </>
  );
};
