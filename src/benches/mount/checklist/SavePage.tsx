import { useState } from 'react';
import type { MountSetting } from '../../../job/facts/mount/steps.ts';
import { savePage } from '../../../studio/pin-up/save-page.ts';
import { Button, Notice, Stack } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import styles from './checklist.module.css';

type State =
  | { readonly stage: 'idle' | 'making' | 'failed' }
  | { readonly stage: 'made'; readonly say: string };

export const SavePage = ({ setting }: { readonly setting: MountSetting }) => {
  const studio = useStudio();
  const [state, setState] = useState<State>({ stage: 'idle' });
  const make = async () => {
    setState({ stage: 'making' });
    try {
      const say = await savePage(studio.document.getState().job, setting);
      setState({ stage: 'made', say });
    } catch {
      setState({ stage: 'failed' });
    }
  };
  return (
    <Stack gap={2} align="start" className={styles['save']}>
      <Button off={state.stage === 'making'} onClick={() => void make()}>
        Save the page to pin up
      </Button>
      <p role="status">
        {state.stage === 'making' && 'The page is being made.'}
        {state.stage === 'made' && state.say}
        {state.stage === 'idle' &&
          `A PDF of one page, ${setting.unit === 'mm' ? 'A4' : 'Letter'}, with boxes to tick.`}
      </p>
      {state.stage === 'failed' && (
        <Notice kind="problem" title="The page could not be made" announce>
          Part of the studio could not be loaded. Is the network or the server still there? Try
          again; the steps above hold as they are.
        </Notice>
      )}
    </Stack>
  );
};
