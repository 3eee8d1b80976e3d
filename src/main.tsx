/** Composition root: makes the studio, starts it, and draws the desk. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Desk } from './benches/desk/Desk.tsx';
import { StudioContext } from './benches/studio.ts';
import { startStudio } from './studio/start.ts';
import { createStudio } from './studio/studio.ts';
import { followTheme } from './ui/theme.ts';
import './ui/tokens.css';
import './ui/base.css';

const start = async () => {
  const studio = createStudio();
  // Before anything is drawn, so that no visit begins in the wrong light.
  followTheme(studio.view.getState().theme);
  await startStudio(studio);
  const root = document.getElementById('root');
  if (root === null) throw new Error('index.html has no element with the id "root"');
  createRoot(root).render(
    <StrictMode>
      <StudioContext value={studio}>
        <Desk />
      </StudioContext>
    </StrictMode>,
  );
  studio.updates.keepForOffline();
};

void start();
