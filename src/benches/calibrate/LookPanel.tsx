/** What to look for, drawn: the bands through the lens, when the lens is a little off. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { bandLabel } from '../../core/pitch/strip.ts';
import { sayLength, trimmed } from '../../core/units/format.ts';
import { mm, mmToInch } from '../../core/units/units.ts';
import type { Look } from '../../job/facts/band-look.ts';
import { bandPixels, nearestBand, stripBlur } from '../../job/facts/band-look.ts';
import { Columns, Panel, Prose, Slider } from '../../ui/index.ts';
import { CautionNotes } from '../desk/CautionNotes.tsx';
import { useJob, useUnits } from '../studio.ts';
import { useStripToRead } from './use-strip-to-read.ts';
import styles from './calibrate.module.css';

const PICTURE_PX = 600;

/** One band. Its own height comes from the style sheet. */
const BandCanvas = ({ bandLpi, look }: { readonly bandLpi: number; readonly look: Look }) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    // Without a canvas (a test's page) there is nothing to draw on.
    const context = canvas.current?.getContext('2d');
    context?.putImageData(
      new ImageData(bandPixels(bandLpi, look, PICTURE_PX), PICTURE_PX, 1),
      0,
      0,
    );
  }, [bandLpi, look]);
  return <canvas ref={canvas} width={PICTURE_PX} height={1} />;
};

export const LookPanel = () => {
  const job = useJob();
  const units = useUnits();
  const strip = useStripToRead();
  const blur = useMemo(() => stripBlur(job), [job]);
  const [off, setOff] = useState<number>();
  const [head, setHead] = useState(0);
  if (strip === undefined) return null;
  const { bandsLpi } = strip;
  const centre = bandsLpi[(bandsLpi.length - 1) / 2] as number;
  const spread = (bandsLpi.at(-1) as number) - centre;
  // A lens that is off by two steps shows at once what fringes are.
  const shownOff = off ?? (2 * spread) / ((bandsLpi.length - 1) / 2);
  const trueLpi = centre + shownOff;
  const look: Look = { trueLpi, acrossIn: mmToInch(mm(strip.acrossMm)), blur, head };
  const best = nearestBand(bandsLpi, trueLpi);
  const bestLabel = bandLabel(bandsLpi[best] as number);
  return (
    <Panel step={3} title="What to look for">
      <p>
        Lay the lens on the strip, ribs along the lines, and look from{' '}
        {sayLength(strip.readFromMm, units)}, straight ahead of the middle. Move your head slowly.
        The right band goes dark, then bright, from edge to edge at once; in the others dark fringes
        run along. This is drawn for your lens and printer. The coloured row marked PHASE is for the
        photo: pass it over.
      </p>
      <CautionNotes kinds={['edges']} />
      <Columns least={15} gap="3 5">
        <Slider
          label="Lens is off by"
          value={shownOff}
          min={-1.5 * spread}
          max={1.5 * spread}
          step={spread / 100}
          valueText={`${shownOff < 0 ? '−' : '+'}${trimmed(Math.abs(shownOff), 3)} LPI`}
          onChange={setOff}
        />
        <Slider
          label="Head moved by"
          value={head}
          min={-0.5}
          max={0.5}
          step={0.01}
          valueText={`${trimmed(head, 2)} of a zone`}
          onChange={setHead}
        />
      </Columns>
      <ol
        className={styles['looks']}
        aria-label={`Bands through the lens; ${bestLabel} is the evenest`}
      >
        {bandsLpi.map((bandLpi, band) => (
          <li key={bandLpi} className={band === best ? styles['best'] : undefined}>
            <span>
              {band === best ? '▸ ' : ''}
              {bandLabel(bandLpi)}
            </span>
            <BandCanvas bandLpi={bandLpi} look={look} />
          </li>
        ))}
      </ol>
      <Prose>
        {Math.abs(shownOff) > spread
          ? 'Here the lens is off by more than the strip reaches: no band is even, but fringes counted in a few of them still tell the pitch.'
          : `Here ${bestLabel} is the one to choose.`}
      </Prose>
    </Panel>
  );
};
