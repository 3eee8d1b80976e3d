/** Keeps a tilt proof in step with the job, the prepared frames and the view. */
import type { ProofLook } from '../../contract/proof.ts';
import type { Floor } from '../floor.ts';
import type { Studio } from '../studio.ts';
import { sourcesAsShown, viewAsShown } from './as-printed.ts';
import { proofSourcesOf, proofViewOf } from './proof-scene.ts';
import type { TiltProof } from './tilt-proof.ts';

/**
 * @param floor with the last tables of printer profiles; left out in tests: only the colours of the screen are shown
 * @returns what ends that
 */
export const followProof = (
  floor: Floor & Partial<Pick<Studio, 'colours'>>,
  proof: TiltProof,
): (() => void) => {
  const { document, work, view, tasks } = floor;
  let shown = false;
  let missed = false;
  let look: ProofLook | undefined;
  let asked = 0;
  /** The last wish counts; what cannot be shown is told on Weave, and the colours of the screen stay. */
  const followLook = async () => {
    const { colours } = floor;
    if (colours === undefined) return;
    const now = (asked += 1);
    const wish = view.getState();
    if (look === undefined && wish.printLook === 'screen') return;
    const next = await import('../colour/look.ts')
      .then(({ lookOf }) => lookOf({ ...floor, colours }, document.getState().job, wish))
      .catch(() => undefined);
    if (now !== asked || ended) return;
    look = next;
    showScene();
  };
  let ended = false;
  const isBusy = () => tasks.isWriting() || (shown && work.getState().preparing !== undefined);
  const showScene = () => {
    // New pictures cost far more time than a turn. So the first frame is shown as soon as it is ready and
    // the rest together; a weave has priority over both.
    missed = isBusy();
    if (missed) return;
    const { job } = document.getState();
    const sources = proofSourcesOf(job, work.getState().prepared);
    shown = sources.pictures.some((picture) => picture !== undefined);
    proof.setSources({ ...sourcesAsShown(job, view.getState().proofShows, sources), look });
  };
  const showView = () => {
    const { tilt, bothEyes, proofShows } = view.getState();
    const { job } = document.getState();
    proof.setView(viewAsShown(job, proofShows, proofViewOf(job, tilt, bothEyes)));
  };
  const catchUp = () => {
    if (missed && !isBusy()) showScene();
  };
  showScene();
  showView();
  void followLook();
  const endings = [
    document.subscribe(({ job }, before) => {
      if (job === before.job) return;
      // Until the frames are prepared again, the old sheet's pictures are shown under the new sheet's ribs.
      showScene();
      showView();
      if (job.colour !== before.job.colour) void followLook();
    }),
    work.subscribe((now, before) => {
      if (now.prepared !== before.prepared) showScene();
      else if (now.preparing !== before.preparing) catchUp();
    }),
    tasks.store.subscribe((now, before) => {
      if (now.running !== before.running) catchUp();
    }),
    view.subscribe((now, before) => {
      const turned = now.tilt !== before.tilt || now.bothEyes !== before.bothEyes;
      if (now.printLook !== before.printLook || now.gamutWarning !== before.gamutWarning)
        void followLook();
      if (now.proofShows !== before.proofShows) showScene();
      if (turned || now.proofShows !== before.proofShows) showView();
    }),
  ];
  return () => {
    ended = true;
    for (const end of endings) end();
  };
};
