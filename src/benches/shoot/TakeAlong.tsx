/** The rig to take along: one way in sight, the others folded: OpenUSD text, CSV, and a table to copy. */
import { useState } from 'react';
import { inFileName } from '../../core/names/in-file-name.ts';
import { rigOf } from '../../core/plan/rig.ts';
import type { RigTable } from '../../core/plan/rig-table.ts';
import { rigTable, toCsv, toTsv } from '../../core/plan/rig-table.ts';
import { usdaAnimated, usdaRow } from '../../core/plan/usda.ts';
import type { Job } from '../../job/schema/job.ts';
import {
  plannedFrame,
  rigSettingOf,
  sceneUnitOf,
  sensorOf,
  usdaChoicesOf,
} from '../../job/facts/rig.ts';
import { downloadBlob } from '../../studio/keep/download.ts';
import { Button, FiguresTable, Prose, Row, Stack } from '../../ui/index.ts';
import { KeptFold } from '../desk/KeptFold.tsx';
import { sceneNumber } from '../../job/facts/scene-measure.ts';

const save = (text: string, type: string, fileName: string) =>
  downloadBlob(new Blob([text], { type }), fileName);

const CopyButton = ({ table }: { readonly table: RigTable }) => {
  const [said, setSaid] = useState('');
  const copy = () =>
    navigator.clipboard.writeText(toTsv(table)).then(
      () => setSaid('Copied: paste it into a spreadsheet.'),
      () => setSaid('This browser did not let the table be copied. Download the CSV instead.'),
    );
  return (
    <>
      <Button onClick={() => void copy()}>Copy the table</Button>
      <Prose as="span" role="status">
        {said}
      </Prose>
    </>
  );
};

export const TakeAlong = ({ job }: { readonly job: Job }) => {
  const rig = rigOf(rigSettingOf(job));
  const unit = sceneUnitOf(job);
  const usda = usdaChoicesOf(job);
  const table = rigTable(rig, {
    unitName: unit.name,
    unitMm: unit.mm,
    sensorMm: sensorOf(job),
    framePx: plannedFrame(job),
  });
  const name = inFileName(job.name, 'rig');
  return (
    <Stack gap={2}>
      <Row gap="2 3">
        <Button
          look="primary"
          onClick={() => save(usdaAnimated(rig, usda), 'text/plain', `${name} moving camera.usda`)}
        >
          One moving camera (.usda)
        </Button>
        <Prose as="span">Takes the rig along as OpenUSD: one camera, a frame for each view.</Prose>
      </Row>
      <KeptFold name="shoot along" summary="Other ways to take it along">
        <Prose>
          X to the right, Y up, cameras look along −Z; the key plane is z = 0 and its middle the
          origin. Right-handed. A camera at X &gt; 0 has a negative aperture offset. View 1 is the
          leftmost. Each file says so itself.
        </Prose>
        <Row gap="2 3">
          <Button onClick={() => save(usdaRow(rig, usda), 'text/plain', `${name} cameras.usda`)}>
            {rig.cameras.length} cameras (.usda)
          </Button>
          <Button onClick={() => save(toCsv(table), 'text/csv', `${name} rig.csv`)}>
            Table (.csv)
          </Button>
          <CopyButton table={table} />
        </Row>
        <FiguresTable
          caption="The cameras in figures"
          head={[
            'View',
            `X, ${unit.name}`,
            'Window shift, % of the frame',
            'Window shift, px',
            'Shift on the sensor, mm',
            'Camera slide: crop from the left, px',
            'Turn, °',
          ]}
          rows={table.rows.map((row) => {
            const [view = 0, x = 0, , , share = 0, ...rest] = row;
            return [view, x, share * 100, ...rest].map((value) => sceneNumber(value));
          })}
        />
      </KeptFold>
    </Stack>
  );
};
