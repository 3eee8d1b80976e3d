import type { ReactNode } from 'react';
import { ChoiceField } from './ChoiceField.tsx';
import { Stack } from './Layout.tsx';
import { Panel } from './Panel.tsx';
import styles from './Panel.module.css';
import { Prose } from './Prose.tsx';

interface Props {
  readonly title: string;
  /** Of the choice. */
  readonly label: string;
  readonly choices: readonly [off: string, on: string];
  readonly on: boolean;
  /** What it would be for, while it is off. */
  readonly words: string;
  readonly children: ReactNode;
  onSwitch(on: boolean): void;
}

/** A panel for something that a job may do without: its parts stand there while it is on. */
export const SwitchedPanel = ({ title, label, choices, on, words, children, onSwitch }: Props) => (
  <Panel title={title}>
    <ChoiceField
      label={label}
      choices={[
        { value: 'off', label: choices[0] },
        { value: 'on', label: choices[1] },
      ]}
      value={on ? 'on' : 'off'}
      onChange={(value) => onSwitch(value === 'on')}
    />
    {on ? (
      <Stack gap={4} className={styles['parts']}>
        {children}
      </Stack>
    ) : (
      <Prose>{words}</Prose>
    )}
  </Panel>
);
