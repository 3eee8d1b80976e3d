import type { ErrorCode } from '../../src/contract/errors.ts';
import { StudioError, messageOf } from '../../src/contract/errors.ts';
import { nameInText } from '../../src/core/names/shown.ts';

/** Why a scene is not shown, naming it. */
export const refuseScene = (
  name: string,
  reason: string,
  code: ErrorCode = 'damaged',
): StudioError => new StudioError(code, `"${nameInText(name)}" ${reason}`, name);

/** A loader's own error, with the file named. */
export const asSceneError = (error: unknown, name: string): StudioError =>
  error instanceof StudioError
    ? error
    : refuseScene(
        name,
        `could not be read as a scene: ${messageOf(error).replace(/^THREE\.\w+: /, '')}. Export it again, as .glb if you can.`,
      );
