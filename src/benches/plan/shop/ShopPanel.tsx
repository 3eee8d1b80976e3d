/** What prints take, side by side: file, weave, renders and money. */
import { useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import { MOST_COMPARED } from '../../../materials/shop.ts';
import { shopTable } from '../../../materials/shop-table.ts';
import { saveShopCsv, saveShopPage } from '../../../studio/pin-up/save-shop.ts';
import { Button, Name, Panel, Prose, Row, Stack, Table } from '../../../ui/index.ts';
import { FileTypeField } from '../../desk/FileTypeField.tsx';
import { useDocument, useUnits, useView } from '../../studio.ts';
import styles from './shop.module.css';
import { useForecasts, useJobsToCompare } from './use-forecasts.ts';

interface ChooseProps {
  readonly jobs: NonNullable<ReturnType<typeof useJobsToCompare>>;
  readonly chosen: readonly string[];
  onChoose(chosen: readonly string[]): void;
}

const ChooseJobs = ({ jobs, chosen, onChoose }: ChooseProps) => {
  const openId = useDocument((state) => state.jobId);
  const full = chosen.length >= MOST_COMPARED;
  return (
    <fieldset className={styles['choose']}>
      <legend>Jobs to compare, at most {MOST_COMPARED}</legend>
      {[...jobs].map(([id, job]) => {
        const taken = chosen.includes(id);
        return (
          <label key={id}>
            <input
              type="checkbox"
              checked={taken}
              disabled={!taken && full}
              onChange={() =>
                onChoose(taken ? chosen.filter((one) => one !== id) : [...chosen, id])
              }
            />
            <span>
              <Name>{job.name === '' ? 'Untitled print' : job.name}</Name>
              {id === openId && ' (open)'}
            </span>
          </label>
        );
      })}
    </fieldset>
  );
};

const Compared = ({ jobs }: { readonly jobs: ChooseProps['jobs'] }) => {
  const openId = useDocument((state) => state.jobId);
  const units = useUnits();
  const mark = useView((view) => view.currencyMark);
  const fileType = useView((view) => view.fileType);
  const [kept, choose] = useState<readonly string[]>();
  const [said, say] = useState('');
  const chosen = (kept ?? [openId]).filter((id) => jobs.has(id));
  const forecasts = useForecasts(jobs, chosen, fileType);
  const words = { units, mark, fileType };
  const { head, rows, notes } = shopTable(forecasts, words);
  return (
    <Stack gap={4}>
      <ChooseJobs jobs={jobs} chosen={chosen} onChoose={choose} />
      {forecasts.length > 0 && (
        <>
          <Table
            name="What each print takes"
            head={head.map((name, place) => (place === 0 ? name : nameInText(name)))}
            rows={rows}
          />
          <Stack gap={1}>
            {notes.map((note) => (
              <Prose key={note}>{note}</Prose>
            ))}
          </Stack>
          <Row>
            <Button onClick={() => void saveShopPage(forecasts, words).then(say)}>
              Save as a page
            </Button>
            <Button onClick={() => say(saveShopCsv(forecasts, words))}>Save as CSV</Button>
          </Row>
          <p role="status">{said}</p>
        </>
      )}
    </Stack>
  );
};

export const ShopPanel = () => {
  const jobs = useJobsToCompare();
  return (
    <Panel title="What each print takes">
      <Prose>
        Before hours and money are spent: the file that a print shop or printer gets, the time to
        weave it, the renders and the cost, of up to {MOST_COMPARED} jobs side by side.
      </Prose>
      <FileTypeField />
      {jobs !== undefined && <Compared jobs={jobs} />}
    </Panel>
  );
};
