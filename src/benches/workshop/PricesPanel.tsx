/** How prices are written. The prices themselves stand on the shelves. */
import { BlankField, Fields, Panel, Prose } from '../../ui/index.ts';
import { useView } from '../studio.ts';

const MOST_MARK = 8;

const CurrencyMark = () => {
  const mark = useView((view) => view.currencyMark);
  const setView = useView((view) => view.set);
  return (
    <BlankField
      label="Currency mark"
      value={mark}
      hint="Stands behind prices. Empty: bare numbers."
      onCommit={(currencyMark) => {
        if (currencyMark.length > MOST_MARK)
          return `A currency mark has at most ${MOST_MARK} letters: a sign or a code.`;
        setView({ currencyMark });
        return undefined;
      }}
    />
  );
};

export const PricesPanel = () => (
  <Panel title="Prices">
    <Prose>
      Each entry of a shelf has its price. What a print costs with them stands on Plan, under Money
      and time.
    </Prose>
    <Fields least={12}>
      <CurrencyMark />
    </Fields>
  </Panel>
);
