/** The name of each cause, and why it makes the print look as it does. */
import type { Cause } from '../../core/mend/symptoms.ts';

export const causeWords: Readonly<Record<Cause, { readonly name: string; readonly why: string }>> =
  {
    pitch: {
      name: 'The woven pitch does not suit this lens',
      why: 'Print and lens slide out of step from edge to edge, so the views run past across the picture.',
    },
    skew: {
      name: 'The print lies askew under the lens',
      why: 'Print and ribs are not parallel, so the views run past along the ribs.',
    },
    offset: {
      name: 'The print lies beside its place',
      why: 'The middle view does not show from straight ahead, so the jump from last to first frame does.',
    },
    scale: {
      name: 'The driver scaled the page',
      why: 'The print is not the size it was woven for, and its pitch with it.',
    },
    order: {
      name: 'The frames lie in the wrong order',
      why: 'The picture under a rib is mirrored; frames the other way round turn depth inside out.',
    },
    ribs: {
      name: 'The ribs run across the woven lines',
      why: 'Each rib looks at all the frames at once.',
    },
    spread: {
      name: 'The ink spreads under the rib',
      why: 'Dots run into their neighbours, so the views beside the right one shine through.',
    },
    gap: {
      name: 'There is air under the lens',
      why: 'The print lies beyond the focus: the spot widens, and views follow each other sooner.',
    },
    bubble: {
      name: 'The lens is lifted in one place',
      why: 'There the print is out of focus and seen from another angle.',
    },
    resampled: {
      name: 'Driver or program changed the dots',
      why: 'Dots brought to another grid, or sharpened, no longer lie where the ribs look.',
    },
    'out-of-step': {
      name: 'The print head’s two directions do not meet',
      why: 'Every second swath lies beside the others, and under a rib that is another view.',
    },
    depth: {
      name: 'The scene is deeper than lens and frames can show',
      why: 'Far and near things move by more than a rib from view to view, so edges double.',
    },
    flip: {
      name: 'Unlike frames stand side by side',
      why: 'Every lens shows a little of the neighbouring view; unlike pictures make it plain.',
    },
  };
