/** The seven benches in the order of the craft, and the Workshop beside them, each loaded when it is first opened. */
import type { ComponentType, LazyExoticComponent } from 'react';
import type { BenchName } from '../../job/findings/finding.ts';
import { latePart } from './late-part.tsx';

export interface Bench {
  readonly name: BenchName;
  readonly label: string;
  /** What it is for, under its name. */
  readonly purpose: string;
  readonly Page: LazyExoticComponent<ComponentType>;
  /** No step of the craft: it stands beside the benches. */
  readonly beside?: true;
}

export const benches: readonly Bench[] = [
  {
    name: 'plan',
    label: 'Plan',
    purpose: 'Before money is spent: what this lens and this printer can do together.',
    Page: latePart(() => import('../plan/index.tsx')),
  },
  {
    name: 'shoot',
    label: 'Shoot',
    purpose: 'Before hours are spent: where the cameras stand, and what to render.',
    Page: latePart(() => import('../shoot/index.tsx')),
  },
  {
    name: 'calibrate',
    label: 'Calibrate',
    purpose: 'One strip, printed and laid under the lens, tells its true pitch.',
    Page: latePart(() => import('../calibrate/index.tsx')),
  },
  {
    name: 'frames',
    label: 'Frames',
    purpose: 'The sequence, checked and laid into its view slots.',
    Page: latePart(() => import('../frames/index.tsx')),
  },
  {
    name: 'weave',
    label: 'Weave',
    purpose: 'Tilt the proof, look at the dots, and weave the sheet.',
    Page: latePart(() => import('../weave/index.tsx')),
  },
  {
    name: 'mount',
    label: 'Mount',
    purpose: 'From the printer to the trimmed print.',
    Page: latePart(() => import('../mount/index.tsx')),
  },
  {
    name: 'mend',
    label: 'Mend',
    purpose: 'From what you see on a print to the number to change.',
    Page: latePart(() => import('../mend/index.tsx')),
  },
  {
    name: 'workshop',
    label: 'Workshop',
    purpose: 'What you own, for every job: lenses, printers, papers and their prices.',
    Page: latePart(() => import('../workshop/index.tsx')),
    beside: true,
  },
];

const byDefault = benches.find(({ name }) => name === 'weave') as Bench;

export const benchNamed = (name: string): Bench | undefined =>
  benches.find((bench) => bench.name === name);

/** The bench an address asks for, else the one of last time, else the one to begin at. */
export const benchFor = (hash: string, last: string): Bench =>
  benchNamed(hash.replace(/^#\/?/, '')) ?? benchNamed(last) ?? byDefault;
