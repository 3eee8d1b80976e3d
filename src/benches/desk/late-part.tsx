/** Parts of the page that are loaded when they are first wanted. */
import type { ComponentType, LazyExoticComponent } from 'react';
import { lazy } from 'react';
import { Missing } from './LostPart.tsx';

/** One that cannot be loaded shows so in its place, and the desk says why. */
export const latePart = <P extends object>(
  load: () => Promise<{ default: ComponentType<P> }>,
): LazyExoticComponent<ComponentType<P>> =>
  lazy(() => load().catch(() => ({ default: () => <Missing /> })));
