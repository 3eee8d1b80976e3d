/** Which lens sheet to buy, or to take from the shelf, for this picture, size, distance and printer. */
import type { FoundLens, LensWish } from '../../../core/plan/finder.ts';
import { trimmed } from '../../../core/units/format.ts';
import { radToDeg } from '../../../core/units/units.ts';
import { changeLensWish } from '../../../job/facts/lens-wish.ts';
import { sayFound, sayInstead, saySharp } from '../../../job/words/found-lens.ts';
import { isInUse } from '../../../materials/lens-offers.ts';
import { takeFound } from '../../../materials/take-found.ts';
import { Button, FiguresTable, Panel, Prose, Stack } from '../../../ui/index.ts';
import { useChange, useEdit, useJob, useShelves } from '../../studio.ts';
import { DepthChart } from './DepthChart.tsx';
import { DistanceSlider } from './DistanceSlider.tsx';
import styles from './finder.module.css';
import { WallFigures } from './WallFigures.tsx';
import { WhatWouldWork } from './WhatWouldWork.tsx';
import { useFound } from './use-found.ts';
import { useSay } from './use-say.ts';
import { WishFields } from './WishFields.tsx';

const CARDS = 4;

interface CardProps {
  readonly found: FoundLens;
  readonly above: FoundLens | undefined;
  readonly wish: LensWish;
}

const Card = ({ found, above, wish }: CardProps) => {
  const change = useChange();
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  const { say, fine } = useSay();
  const words = sayFound(found, wish, say);
  const instead = above && sayInstead(found, above, wish);
  const used = isInUse(job, found);
  return (
    <li className={styles['card']} data-short={found.short.length > 0 || undefined}>
      <h3>
        {found.name}
        {found.source === 'own' && (
          <span className={styles['own']}>{found.isOffcut ? 'your offcut' : 'yours'}</span>
        )}
      </h3>
      <p>
        {trimmed(found.lpi, 2)} LPI, {fine(found.lens.thicknessMm)} thick, cone{' '}
        {trimmed(radToDeg(found.coneRad), 0)}°
      </p>
      <p className={styles['why']}>
        {words.charAt(0).toUpperCase() + words.slice(1)}.{' '}
        {found.ribsSeen ? 'From near the ribs are seen as fine lines.' : ''}
      </p>
      {instead !== undefined && <p className={styles['instead']}>{instead}.</p>}
      <Button
        off={used}
        onClick={() => void change('lens', (now) => takeFound(now, found, shelves))}
        aria-label={used ? undefined : `Use ${found.name}`}
      >
        {used ? 'In use' : 'Use this lens'}
      </Button>
    </li>
  );
};

const rowOf = (found: FoundLens, { say, fine }: ReturnType<typeof useSay>): readonly string[] => [
  found.name,
  fine(found.lens.thicknessMm),
  `${trimmed(radToDeg(found.coneRad), 0)}°`,
  String(found.frames),
  saySharp(found.sharp, say),
  `${trimmed(100 * found.depthShare, 0)} %`,
  found.betweenEyes.map((views) => trimmed(views, 1)).join(' to '),
  `${trimmed(100 * found.lost, 1)} %`,
  found.ribsSeen ? 'yes' : 'no',
  `±${trimmed(found.pitchLpi, 3)}`,
  found.short.length === 0 ? 'yes' : 'no',
];

interface AnswerProps {
  readonly found: readonly FoundLens[];
  readonly wish: LensWish;
}

const Answer = ({ found, wish }: AnswerProps) => {
  const said = useSay();
  return (
    <>
      <Stack as="ol" gap={3} className={styles['cards']} aria-label="Lenses that suit">
        {found.slice(0, CARDS).map((one, place) => (
          <Card key={one.id} found={one} above={found[place - 1]} wish={wish} />
        ))}
      </Stack>
      <WhatWouldWork />
      <WallFigures />
      <DistanceSlider />
      <DepthChart found={found} wish={wish} />
      <FiguresTable
        caption="All of them in figures"
        head={[
          'Lens',
          'Thick',
          'Cone',
          'Frames',
          'Sharp',
          'Of the depth',
          'Views between the eyes',
          'Dots shared',
          'Ribs seen from near',
          'Pitch to, LPI',
          'Does all of it',
        ]}
        rows={found.map((one) => rowOf(one, said))}
      />
      <Prose>
        Types are as commonly sold, 10 to 100 LPI, with ribs in focus (common practice, no source):
        ask the seller for pitch, thickness and refractive index of the very sheet. Your own come
        from the Workshop. Nothing is listed that another beats in everything.
      </Prose>
    </>
  );
};

const sayCount = (found: readonly FoundLens[] | undefined): string => {
  if (found === undefined) return 'Tracing the lenses …';
  const meeting = found.filter(({ short }) => short.length === 0).length;
  return meeting === 0
    ? 'No lens of the usual kinds does all of it. The nearest come first, each with what it falls short of.'
    : `${meeting} ${meeting === 1 ? 'does' : 'do'} all of it. The first is the best for this.`;
};

export const FinderPanel = () => {
  const { wish, found } = useFound();
  const edit = useEdit(changeLensWish);
  return (
    <Panel title="Which lens?">
      <WishFields edit={edit} />
      <p role="status" className={styles['count']}>
        {sayCount(found)}
      </p>
      {found !== undefined && <Answer found={found} wish={wish} />}
    </Panel>
  );
};
