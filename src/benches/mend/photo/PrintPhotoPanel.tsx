/** One photo of the failed print, straight on: where each view shows, and what that says. */
import { useState } from 'react';
import type { MendPhotoAnswer } from '../../../contract/photo.ts';
import type { MendPhotoReading } from '../../../core/mend/photo/terms.ts';
import type { PhotoCorners } from '../../../core/pitch/photo/photo.ts';
import {
  formatLengthRough,
  sayDoubted,
  sayDoubtedLength,
  sayLength,
  trimmed,
} from '../../../core/units/format.ts';
import { lengthMeasure } from '../../../core/units/measure.ts';
import { mm, rad, radToDeg } from '../../../core/units/units.ts';
import { changeCounts } from '../../../job/edits/seen.ts';
import { seeingOf } from '../../../job/facts/mend.ts';
import { countsOfPhoto } from '../../../job/facts/photo-counts.ts';
import type { ReadByHand } from '../../../state/tasks.ts';
import { canRead, readPrintFrom } from '../../../studio/read/print-photo.ts';
import {
  BlankMeasure,
  Button,
  Fields,
  Figure,
  Notice,
  Panel,
  Prose,
  Row,
} from '../../../ui/index.ts';
import { CornerFrame, looseCorners } from '../../desk/CornerFrame.tsx';
import { PictureReading } from '../../desk/PictureReading.tsx';
import {
  useChange,
  useDocument,
  useJob,
  useStudio,
  useTask,
  useUnits,
  useWork,
} from '../../studio.ts';
import { ViewMapCells } from './ViewMapCells.tsx';

type Good = Extract<MendPhotoReading, { ok: true }>;

const Numbers = ({ reading }: { readonly reading: Good }) => {
  const units = useUnits();
  const { pitch, skew, offsetMm, lifted, told } = reading;
  return (
    <>
      <Figure
        label="Pitch to weave with, by the photo"
        value={`${sayDoubted(pitch.viewingLpi, 3)} LPI`}
        relation="LPI = LPI_woven cos α − bands / W"
        relationNumber={9}
      >
        {sayDoubted(pitch.bands, 2)} zones of slide from edge to edge.
      </Figure>
      <Figure
        label="Print lies turned, by the photo"
        value={`${sayDoubted({ value: radToDeg(rad(skew.rad.value)), plusMinus: radToDeg(rad(skew.rad.plusMinus)) }, 3)}°`}
        relation="sin α = bands × p_v / (H (1 + g₀ / D))"
        relationNumber={7}
      >
        {sayDoubted(skew.bands, 2)} zones of slide from end to end; clockwise is positive.
      </Figure>
      <Figure
        label="Print lies beside its place, by the photo"
        value={sayDoubtedLength(offsetMm, units)}
        relation="x = x_k (1 + g₀ / D) − g′ x_e / D"
        relationNumber={1}
      />
      <Prose>
        {trimmed(100 * told, 0)} % of the picture told which view it shows
        {lifted.length === 0
          ? '; no place is seen to be lifted.'
          : `; ${lifted.length} ${lifted.length === 1 ? 'place is' : 'places are'} softer than the rest, outlined: look there for air, dust or a bubble.`}
      </Prose>
    </>
  );
};

const Result = ({ reading }: { readonly reading: MendPhotoReading }) => {
  const change = useChange();
  const [refused, setRefused] = useState<string>();
  if (!reading.ok)
    return (
      <Notice kind="problem" title={reading.sentence} announce>
        <p>{reading.whatToDo}</p>
      </Notice>
    );
  return (
    <>
      {reading.cautions.map((caution) => (
        <Notice key={caution} kind="caution">
          {caution}
        </Notice>
      ))}
      <Numbers reading={reading} />
      <Button
        look="primary"
        onClick={() =>
          setRefused(change(...changeCounts('counts of the photo', countsOfPhoto(reading))))
        }
      >
        Take these numbers
      </Button>
      <p role="status">{refused}</p>
    </>
  );
};

interface ReadProps {
  readonly file: File;
  readonly answer: MendPhotoAnswer;
  readonly byHand: ReadByHand;
}

const ReadPhoto = ({ file, answer, byHand }: ReadProps) => {
  const studio = useStudio();
  const jobId = useDocument((state) => state.jobId);
  const { printed } = seeingOf(useJob());
  const units = useUnits();
  const { reading, widthPx, heightPx } = answer;
  const [moved, setMoved] = useState<PhotoCorners>();
  const corners = moved ?? byHand.corners ?? looseCorners(widthPx, heightPx);
  const isMapped = reading.ok && moved === undefined && byHand.corners !== undefined;
  const again = (readAtMm: number | undefined) =>
    void readPrintFrom(studio, file, { corners, ...(readAtMm === undefined ? {} : { readAtMm }) });
  return (
    <>
      <CornerFrame
        file={file}
        widthPx={widthPx}
        heightPx={heightPx}
        corners={corners}
        alt="Your photo of the print"
        cornerName="Corner of the picture"
        drawnLabel={
          isMapped ? 'Which view each place shows' : 'Nothing is drawn until the corners are set'
        }
        onCorners={setMoved}
      >
        {isMapped && (
          <ViewMapCells reading={reading} corners={corners} viewSlots={printed.viewSlots} />
        )}
      </CornerFrame>
      <Prose>
        {isMapped
          ? 'A colour for each view slot, from the left camera’s plum to the right one’s straw; where nothing is laid over it, it could not be told.'
          : 'Drag the four corners onto the picture’s own, as it is seen from the front, then read it.'}
      </Prose>
      <Fields least={13}>
        <BlankMeasure
          label="Camera distance"
          value={byHand.readAtMm}
          measure={lengthMeasure(units)}
          hint="From the print to the camera. Left empty, the viewing distance is taken."
          onCommit={(next) => {
            if (next !== undefined && !(next >= 50 && next <= 50_000))
              return `A camera stands ${formatLengthRough(mm(50), units)} to ${sayLength(50_000, units)} from the print.`;
            again(next);
            return undefined;
          }}
        />
      </Fields>
      <Row>
        <Button off={moved === undefined && isMapped} onClick={() => again(byHand.readAtMm)}>
          Read with these corners
        </Button>
        <Button onClick={() => studio.tasks.tell(jobId, 'printPhoto', { stage: 'idle' })}>
          Put the photo away
        </Button>
      </Row>
      {byHand.corners !== undefined && moved === undefined && <Result reading={reading} />}
    </>
  );
};

export const PrintPhotoPanel = () => {
  const studio = useStudio();
  const photo = useTask('printPhoto');
  const prepared = useWork((work) => work.prepared);
  // Asked again whenever a frame is prepared.
  const ready = prepared.size > 0 && canRead(studio);
  return (
    <Panel title="Or photograph it">
      <Prose>
        One photo of the failed print under its lens, straight on and from the viewing distance, in
        even light. It is compared with the frames and stays on this machine.
      </Prose>
      <PictureReading
        kind="printPhoto"
        notYet={
          !ready && (
            <Notice kind="info">
              The frames must be there first: the photo is compared with them.
            </Notice>
          )
        }
        onFile={(file) => void readPrintFrom(studio, file)}
      >
        {photo.stage === 'read' && (
          <ReadPhoto
            key={photo.file.name}
            file={photo.file}
            answer={photo.answer}
            byHand={photo.byHand ?? {}}
          />
        )}
      </PictureReading>
    </Panel>
  );
};
