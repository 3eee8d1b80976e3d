/** Composition root: makes the studio, starts it, and draws the desk. */
import type { ReactNode } from 'react';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Desk } from './benches/desk/Desk.tsx';
import { StudioContext } from './benches/studio.ts';
import { offeredIn } from './studio/beside/address.ts';
import { startStudio } from './studio/start.ts';
import { createStudio } from './studio/studio.ts';
import { followTheme } from './ui/theme.ts';
import './ui/tokens.css';
import './ui/base.css';

const draw = (page: ReactNode): void => {
  const root = document.getElementById('root');
  if (root === null) throw new Error('index.html has no element with the id "root"');
  createRoot(root).render(<StrictMode>{page}</StrictMode>);
};

const start = async () => {
  const offered = offeredIn(location.hash);
  // A phone that lends its camera to a desk: no job is opened there.
  if (offered !== undefined) {
    const [{ PhonePage }, { createPhoneSide }] = await Promise.all([
      import('./benches/beside/PhonePage.tsx'),
      import('./studio/beside/phone-side.ts'),
    ]);
    followTheme('system');
    return draw(<PhonePage side={createPhoneSide(offered)} />);
  }
  const studio = createStudio();
  // Before anything is drawn, so that no visit begins in the wrong light.
  followTheme(studio.view.getState().theme);
  await startStudio(studio);
  draw(
    <StudioContext value={studio}>
      <Desk />
    </StudioContext>,
  );
  studio.updates.keepForOffline();
};

void start();
