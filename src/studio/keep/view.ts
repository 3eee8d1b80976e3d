/** Between the view store and the browser: how the person looks at the job, when there is no room to remember it. */
import { isNoRoom } from '../../files/room.ts';
import { onViewUnkept } from '../../state/view.ts';
import { keepWithRoom } from './no-room.ts';

/** Where the browser remembers nothing at all the view lasts as long as the page, which needs no word. */
export const startKeepingView = (): void =>
  onViewUnkept((error, writeAgain) => {
    if (isNoRoom(error))
      void keepWithRoom('your settings (units, theme, file type)', async () => writeAgain()).catch(
        () => undefined,
      );
  });
