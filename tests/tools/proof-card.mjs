// @ts-check
/**
 * The graphics card taken away from under the tilt proof, whose worker draws with it: by the extension that is made for
 * that (WEBGL_lose_context), in the worker itself.
 */

/** @typedef {import('playwright').Page} Page */

/** The worker then keeps its drawing context where `loseProofCard` finds it. Before the page is opened, with `?proof=3d`. */
export const keepProofContext = (/** @type {Page} */ page) =>
  page.route(/proof\.worker-[^/]*\.js$/, async (route) => {
    const answer = await route.fetch();
    const keepContext = `{
      const get = OffscreenCanvas.prototype.getContext;
      OffscreenCanvas.prototype.getContext = function (...wanted) {
        return (globalThis.lastContext = get.apply(this, wanted));
      };
    }`;
    await route.fulfill({ response: answer, body: `${keepContext}${await answer.text()}` });
  });

/**
 * @param {Page} page
 * @param {number} [backAfterMs] when it comes back; left out: it stays away
 */
export const loseProofCard = async (page, backAfterMs) => {
  const worker = page.workers().find((one) => one.url().includes('proof.worker'));
  if (worker === undefined) throw new Error('No worker draws the proof.');
  await worker.evaluate(async (after) => {
    const { lastContext } = /** @type {{ lastContext?: WebGL2RenderingContext }} */ (globalThis);
    const lose = lastContext?.getExtension('WEBGL_lose_context');
    if (lose === null || lose === undefined) throw new Error('No context to lose.');
    lose.loseContext();
    if (after === undefined) return;
    await new Promise((resolve) => setTimeout(resolve, after));
    lose.restoreContext();
  }, backAfterMs);
};
