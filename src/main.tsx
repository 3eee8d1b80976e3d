/** Composition root: lays the kept job (or the demo) in, begins to keep it, and draws the desk. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Desk } from './benches/desk/Desk.tsx';
import { restore, startKeeping, sweepKept } from './studio/keep/first-job.ts';
import { offerDemos } from './studio/frames/demo-shelf.ts';
import { startCountingGhosts } from './studio/proof/ghosts.ts';
import { recallParallax } from './studio/keep/parallax.ts';
import { recallPitches } from './studio/keep/pitches.ts';
import { recallShelves } from './studio/keep/shelves.ts';
import { startKeepingView } from './studio/keep/view.ts';
import { startPreparing } from './studio/prepare/keep-prepared.ts';
import { tellLostParts } from './benches/desk/lost-part.ts';
import { goOverTogether, keepForOffline } from './studio/keep/offline.ts';
import { brokenOff } from './studio/weave/weaving.ts';
import { sweepLeftovers } from './files/sweep.ts';
import { documentStore } from './state/document.ts';
import { viewStore } from './state/view.ts';
import { workStore } from './state/work.ts';
import { followTheme } from './ui/theme.ts';
import './ui/tokens.css';
import './ui/base.css';

/** Loaded on a first visit, and when the list of jobs is opened. */
const demos = () => import('./studio/frames/demos.ts');
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
