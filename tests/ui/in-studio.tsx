/** Parts of the page, drawn as they stand in it: inside a studio. */
import { vi } from 'vitest';
import type { ReactElement, ReactNode } from 'react';
import { render } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { StudioContext } from '../../src/benches/studio.ts';
import type { Studio } from '../../src/studio/studio.ts';

export type User = ReturnType<typeof userEvent.setup>;

/** Draws it, and gives a person to press and type there. */
export const renderIn = (studio: Studio, part: ReactElement) => {
  const wrapper = ({ children }: { readonly children: ReactNode }) => (
    <StudioContext value={studio}>{children}</StudioContext>
  );
  return { user: userEvent.setup(), ...render(part, { wrapper }) };
};

/** jsdom lays nothing out, and the list of frames draws only what has room in it. */
export const layOut = (): void => {
  vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(900);
  vi.spyOn(HTMLElement.prototype, 'clientHeight', 'get').mockReturnValue(700);
};
