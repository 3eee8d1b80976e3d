import { trimmed } from '../../core/units/format.ts';
import { densityMeasure } from '../../core/units/measure.ts';
import { setDensity, setPrinter } from '../../job/edits/consequences.ts';
import { gridOf } from '../../job/facts/printer.ts';
import type { FedFirst } from '../../job/facts/printer.ts';
import { edgeWords } from '../../job/words/printer.ts';
import { ChoiceField, MeasureField } from '../../ui/index.ts';
import { useChange, useJob } from '../studio.ts';
import styles from './Docket.module.css';
import { DocketPart } from './DocketPart.tsx';
import { KeptFold } from './KeptFold.tsx';

const BY_ITSELF = 'automatic';

const edges: readonly { value: FedFirst | typeof BY_ITSELF; label: string }[] = [
  { value: BY_ITSELF, label: 'Automatic' },
  { value: 'top', label: 'Top edge' },
  { value: 'side', label: 'A side' },
];

/** The printer's own axes, and how the page meets them: what most printers have alike both ways. */
const OwnAxes = () => {
  const change = useChange();
  const job = useJob();
  const { printer } = job;
  const { axis, fedFirst } = gridOf(job);
  const grid = `${trimmed(printer.carriageDpi, 2)} × ${trimmed(printer.feedDpi, 2)} dpi`;
  return (
    <KeptFold name="printer axes" summary={`${grid}, ${edgeWords[fedFirst]} first`}>
      <div className={styles['fields']}>
        <MeasureField
          label="Along the carriage"
          value={printer.carriageDpi}
          measure={densityMeasure}
          onCommit={(carriageDpi) =>
            change('along the carriage', (now) => setPrinter(now, { carriageDpi }), 'carriage')
          }
        />
        <MeasureField
          label="Along the feed"
          value={printer.feedDpi}
          measure={densityMeasure}
          onCommit={(feedDpi) =>
            change('along the feed', (now) => setPrinter(now, { feedDpi }), 'feed')
          }
        />
        <ChoiceField
          label="Fed first"
          choices={edges}
          value={printer.fedFirst ?? BY_ITSELF}
          hint={`Across the ribs lie the dots along the ${axis}.`}
          onChange={(value) =>
            void change('fed first', (now) =>
              setPrinter(now, { fedFirst: value === BY_ITSELF ? undefined : value }),
            )
          }
        />
      </div>
    </KeptFold>
  );
};

export const PrinterFields = () => {
  const change = useChange();
  const { acrossDpi: across, alongDpi: along } = gridOf(useJob());
  return (
    <DocketPart title="Printer" more={<OwnAxes />}>
      <MeasureField
        label="Dots across"
        value={across}
        measure={densityMeasure}
        onCommit={(acrossDpi) =>
          change('dots across', (job) => setDensity(job, { acrossDpi }), 'printer.across')
        }
      />
      <MeasureField
        label="Dots along"
        value={along}
        measure={densityMeasure}
        onCommit={(alongDpi) =>
          change('dots along', (job) => setDensity(job, { alongDpi }), 'printer.along')
        }
      />
    </DocketPart>
  );
};
