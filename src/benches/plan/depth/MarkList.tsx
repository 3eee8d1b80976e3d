/** The things on the ruler as a list: names, depths, what becomes of each, and the gain that fits. */
import { nameInText } from '../../../core/names/shown.ts';
import { depthInWords, depthMeasure, roundDepth } from '../../../core/units/depth-measure.ts';
import { trimmed } from '../../../core/units/format.ts';
import { addMark, MOST_MARKS, removeMark, setMark } from '../../../job/edits/depth-marks.ts';
import type { DepthMark } from '../../../job/schema/job.ts';
import { gainRemedy } from '../../../job/findings/plan.ts';
import { depthMarksOf } from '../../../job/facts/plan.ts';
import { useChange, useJob, useUnits } from '../../studio.ts';
import { Button, MeasureField, Prose, Row, Stack, TextField } from '../../../ui/index.ts';
import styles from './depth.module.css';
import { depthFacts, markFacts, qualityWords } from '../../../job/facts/depth.ts';

const State = ({ mark }: { readonly mark: DepthMark }) => {
  const job = useJob();
  const units = useUnits();
  const facts = markFacts(job, mark);
  if (facts === undefined) return <Prose tone="caution">Behind the eye: never seen.</Prose>;
  const { quality, ribs, seemsMm, degrees, strains } = facts;
  const apart =
    job.ribs === 'upright' ? ` · ${trimmed(Math.abs(degrees), 2)}° between the eyes` : '';
  return (
    <Prose tone={quality === 'sharp' && !strains ? 'soft' : 'caution'}>
      {qualityWords[quality]} · moves {trimmed(ribs, 2)} ribs per view · seems{' '}
      {depthInWords(seemsMm, units)}
      {apart}
    </Prose>
  );
};

interface ThingProps {
  readonly mark: DepthMark;
  readonly place: number;
}

const Thing = ({ mark, place }: ThingProps) => {
  const change = useChange();
  const units = useUnits();
  const name = mark.name === '' ? `Thing ${place + 1}` : mark.name;
  return (
    <li className={styles['mark']}>
      <TextField
        label={`Name of thing ${place + 1}`}
        value={mark.name}
        maxLength={60}
        onCommit={(text) =>
          void change('name on the ruler', (job) => setMark(job, place, { name: text }))
        }
      />
      <MeasureField
        label={`${nameInText(name)}: depth`}
        value={mark.zMm}
        measure={depthMeasure(units, mark.zMm)}
        onCommit={(zMm) =>
          change(
            `depth of ${nameInText(name)}`,
            (job) => setMark(job, place, { zMm }),
            `depth.${place}`,
          )
        }
      />
      <Button
        look="quiet"
        aria-label={`Remove ${nameInText(name)}`}
        onClick={() => void change(`removing ${nameInText(name)}`, (job) => removeMark(job, place))}
      >
        Remove
      </Button>
      <State mark={mark} />
    </li>
  );
};

export const MarkList = () => {
  const change = useChange();
  const job = useJob();
  const units = useUnits();
  const marks = depthMarksOf(job);
  const remedy = gainRemedy(job);
  /** A new thing stands where it can be seen and taken: half way through what is sharp in front. */
  const add = () =>
    void change('thing on the ruler', (now) =>
      addMark(now, roundDepth(depthFacts(now).sharp.frontMm / 2, units)),
    );
  return (
    <>
      {marks.length === 0 ? (
        <Prose>
          Nothing stands on the ruler yet. Add the nearest and the farthest thing of your scene.
        </Prose>
      ) : (
        <Stack as="ol">
          {marks.map((mark, place) => (
            <Thing key={place} mark={mark} place={place} />
          ))}
        </Stack>
      )}
      <Row>
        <Button off={marks.length >= MOST_MARKS} onClick={add}>
          Add a thing
        </Button>
        {remedy !== undefined && (
          <Button onClick={() => void change(remedy.undoLabel, remedy.edit)}>
            {remedy.label}: all sharp
          </Button>
        )}
      </Row>
    </>
  );
};
