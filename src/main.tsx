/** Composition root: lays the kept job (or the demo) in, begins to keep it, and draws the desk. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Desk } from './benches/desk/Desk.tsx';
import { restore, startKeeping, sweepKept } from './benches/desk/keep-job.ts';
import { offerDemos } from './benches/desk/jobs/demos.ts';
import { startCountingGhosts } from './benches/desk/keep-ghost.ts';
import { recallParallax } from './benches/desk/keep-parallax.ts';
import { recallPitches } from './benches/desk/keep-pitches.ts';
import { recallShelves } from './benches/desk/keep-shelves.ts';
import { startKeepingView } from './benches/desk/keep-view.ts';
import { startPreparing } from './benches/desk/keep-prepared.ts';
import { tellLostParts } from './benches/desk/lost-part.ts';
import { goOverTogether, keepForOffline } from './benches/desk/offline.ts';
import { brokenOff } from './benches/desk/weaving.ts';
import { sweepLeftovers } from './files/sweep.ts';
import { documentStore } from './state/document.ts';
import { viewStore } from './state/view.ts';
import { workStore } from './state/work.ts';
import { followTheme } from './ui/theme.ts';
import './ui/tokens.css';
import './ui/base.css';

/** Loaded on a first visit, and when the list of jobs is opened. */
const demos = () => import('./benches/frames/demo.ts');
const openFirstJob = async () => (await demos()).openDemo('glasshouse');

/** A sheet that was under way when this tab's page went. */
const tellBrokenOff = () => {
  const fileName = brokenOff();
  if (fileName === undefined) return;
  workStore.getState().set({
    deskNotice:
      `“${fileName}” was being woven when the page went, and was not finished. Nothing of it is left ` +
      'that could pass for a whole sheet; weave it again.',
  });
};

const start = async () => {
  goOverTogether();
  tellLostParts();
  startKeepingView();
  // Before anything is drawn, so that no visit begins in the wrong light.
  followTheme(viewStore.getState().theme);
  // Before anything new is written there.
  await sweepLeftovers();
  offerDemos(demos);
  await restore(openFirstJob);
  void sweepKept();
  // Frames that are to be softened would else be prepared twice.
  if (documentStore.getState().job.soften !== undefined) await recallParallax();
  else void recallParallax();
  startKeeping();
  startPreparing();
  startCountingGhosts();
  void recallPitches();
  void recallShelves();
  tellBrokenOff();
  const root = document.getElementById('root');
  if (root === null) throw new Error('index.html has no element with the id "root"');
  createRoot(root).render(
    <StrictMode>
      <Desk />
    </StrictMode>,
  );
  keepForOffline();
};

void start();
