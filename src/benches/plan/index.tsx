/** The Plan bench: what this lens, printer and size can do, before money is spent. */
import { useRef } from 'react';
import { Button, Row, Stack } from '../../ui/index.ts';
import { DepthPanel } from './depth/DepthPanel.tsx';
import { ExactnessPanel } from './exactness/ExactnessPanel.tsx';
import { FitPanel } from './fit/FitPanel.tsx';
import { LensPanel } from './lens/LensPanel.tsx';
import { MoneyPanel } from './money/MoneyPanel.tsx';
import styles from './plan.module.css';
import { VerdictPanel } from './verdict/VerdictPanel.tsx';

const parts = [
  { name: 'Lens', Part: LensPanel },
  { name: 'Fit', Part: FitPanel },
  { name: 'Exactness', Part: ExactnessPanel },
  { name: 'Depth', Part: DepthPanel },
  { name: 'Money and time', Part: MoneyPanel },
] as const;

/** A long bench: its parts can be gone to. The address is the bench's own, so these are no links. */
const Plan = () => {
  const places = useRef<(HTMLDivElement | null)[]>([]);
  const goTo = (place: number) => {
    const part = places.current[place];
    part?.scrollIntoView();
    part?.focus({ preventScroll: true });
  };
  return (
    <Stack gap={5}>
      <VerdictPanel />
      <Row aria-label="Parts of this bench" as="nav" gap={2}>
        {parts.map(({ name }, place) => (
          <Button key={name} onClick={() => goTo(place)}>
            {name}
          </Button>
        ))}
      </Row>
      {parts.map(({ name, Part }, place) => (
        <div
          key={name}
          ref={(element) => {
            places.current[place] = element;
          }}
          tabIndex={-1}
          role="group"
          aria-label={name}
          className={styles['part']}
        >
          <Part />
        </div>
      ))}
    </Stack>
  );
};
export default Plan;
