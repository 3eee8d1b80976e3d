/** A bench that answers first: one of its parts at a time, and all of them a press away. */
import type { ComponentType } from 'react';
import { ChoiceField, Stack } from '../../ui/index.ts';
import { ALL_PARTS, usePartShown } from './use-parts.ts';

interface Part {
  /** By this it is remembered, and findings lead to it. */
  readonly name: string;
  readonly label: string;
  readonly Part: ComponentType;
}

interface Props {
  readonly bench: string;
  readonly parts: readonly [Part, ...Part[]];
}

export const Parts = ({ bench, parts }: Props) => {
  const [chosen, choose] = usePartShown(bench);
  // One that an earlier version had is remembered in vain.
  const isPart = chosen === ALL_PARTS || parts.some(({ name }) => name === chosen);
  const shown = isPart ? chosen : parts[0].name;
  return (
    <Stack gap={5}>
      <div id="parts">
        <ChoiceField
          label="Show"
          choices={[
            ...parts.map(({ name, label }) => ({ value: name, label })),
            { value: ALL_PARTS, label: 'Everything' },
          ]}
          value={shown}
          onChange={choose}
        />
      </div>
      {parts.map(
        ({ name, Part }) => (shown === ALL_PARTS || shown === name) && <Part key={name} />,
      )}
    </Stack>
  );
};
