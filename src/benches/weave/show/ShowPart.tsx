/** What is sent to someone who shall see the print before it is made. */
import { useState } from 'react';
import type { ShowAs } from '../../../studio/show/save-show.ts';
import { Button, Fold, Prose, Row, SelectField, Stack, UnderWay } from '../../../ui/index.ts';
import { useIsRunning, useStudio } from '../../studio.ts';

const sizes = [
  { value: '640', label: '640 pixels, for mail' },
  { value: '960', label: '960 pixels' },
  { value: '1280', label: '1280 pixels' },
] as const;

const Making = () => {
  const studio = useStudio();
  const [longest, setLongest] = useState<(typeof sizes)[number]['value']>('640');
  const [marked, setMarked] = useState(true);
  const [step, setStep] = useState({ done: 0, total: 1 });
  const [said, setSaid] = useState<string>();
  const running = useIsRunning('showing');
  const save = async (as: ShowAs) => {
    setSaid(undefined);
    const { saveShow } = await import('../../../studio/show/save-show.ts');
    const options = { longestPx: Number(longest), marked };
    setSaid(await saveShow(studio, as, options, (done, total) => setStep({ done, total })));
  };
  return (
    <Stack>
      <Prose>
        The page turns by a slider, a drag or a tilted phone, in any browser and without a network.
        The clip goes there and back once, no faster than the proof sways.
      </Prose>
      <Row gap="2 4">
        <SelectField
          label="Longest side"
          value={longest}
          choices={sizes}
          onChange={(value) => setLongest(value)}
        />
        <label>
          <input
            type="checkbox"
            checked={marked}
            onChange={(event) => setMarked(event.target.checked)}
          />{' '}
          Marked as a preview
        </label>
      </Row>
      {running ? (
        <UnderWay
          label="Drawing"
          done={step.done}
          total={step.total}
          of="pictures"
          onStop={() => studio.tasks.stop('showing')}
        />
      ) : (
        <Row gap="2 4">
          <Button onClick={() => void save('page')}>Save as a page</Button>
          <Button onClick={() => void save('clip')}>Save as a clip</Button>
        </Row>
      )}
      <Prose role="status">{said}</Prose>
    </Stack>
  );
};

export const ShowPart = () => (
  <Fold summary="Show it to someone">
    <Making />
  </Fold>
);
