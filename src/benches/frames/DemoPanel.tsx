import { demos, openDemo } from '../../studio/frames/demos.ts';
import { sayFault } from '../../studio/keep/say.ts';
import { Button, Columns, Panel, Prose, Stack } from '../../ui/index.ts';
import { ALL_PARTS, usePartShown } from '../desk/use-parts.ts';
import { useIsRunning, useStudio } from '../studio.ts';

/** Demo prints to learn on. */
export const DemoPanel = () => {
  const studio = useStudio();
  // Another demo than the one that comes may be asked for; a person's own frames are not left behind.
  const busy = useIsRunning('arrivals');
  const [shown, choose] = usePartShown('frames');
  const open = (name: string) =>
    openDemo(studio, name).then(
      // Its frames are what is looked at next.
      () => {
        if (shown !== ALL_PARTS) choose('frames');
      },
      (error: unknown) => studio.tell(sayFault(error)),
    );
  return (
    <Panel title="Open a demo">
      <Prose>
        A demo is there to be looked at; what you change becomes a copy of your own. The job that is
        open stays under Jobs.
      </Prose>
      <Columns as="ul" least={15} gap={4}>
        {demos.map(({ name, title, description }) => (
          <Stack key={name} as="li" gap={2} align="start">
            <h3>{title}</h3>
            <p>{description}</p>
            <Button aria-label={`Open ${title}`} off={busy} onClick={() => void open(name)}>
              Open
            </Button>
          </Stack>
        ))}
      </Columns>
    </Panel>
  );
};
