/** How the rails look while the lens is turned on the page, with the angle and the way back. */
import { useEffect, useRef, useState } from 'react';
import { linearToSrgb } from '../../../core/colour/srgb.ts';
import { railsOf } from '../../../core/sheet/page-layout.ts';
import type { LensLaid } from '../../../core/sheet/rails.ts';
import { railLightAt, skewFromStripes, stripesOfSkew } from '../../../core/sheet/rails.ts';
import { formatLength, trimmed, withMinus } from '../../../core/units/format.ts';
import { MM_PER_INCH, degToRad, deg, mm } from '../../../core/units/units.ts';
import { pageOf, pagePlanOf } from '../../../job/facts/page.ts';
import { viewingPitchOf } from '../../../job/facts/sheet.ts';
import type { Job } from '../../../job/schema/job.ts';
import { Columns, Figure, Prose, Slider, Stack } from '../../../ui/index.ts';
import { useJob, useUnits } from '../../studio.ts';
import styles from './page.module.css';
import { gridOf } from '../../../job/facts/printer.ts';

const MAX_PX = 420;

/** A lens in focus still shares neighbouring dots: the dot itself, and as much again for the spot. */
const smearOf = (job: Job): number =>
  Math.min(1, (2 * MM_PER_INCH) / (gridOf(job).acrossDpi * viewingPitchOf(job)));

/** Paints the rails and a grey print between them, at so many pixels to the millimetre. */
const paint = (canvas: HTMLCanvasElement, job: Job, laid: LensLaid) => {
  const plan = pagePlanOf(job);
  const rails = railsOf(plan);
  const left = Math.min(...rails.map((rail) => rail.left));
  const top = Math.min(...rails.map((rail) => rail.top));
  const width = Math.max(...rails.map((rail) => rail.left + rail.width)) - left;
  const height = Math.max(...rails.map((rail) => rail.top + rail.height)) - top;
  const perMm = MAX_PX / Math.max(width, height);
  canvas.width = Math.max(1, Math.round(width * perMm));
  canvas.height = Math.max(1, Math.round(height * perMm));
  const context = canvas.getContext('2d');
  if (context === null) return;
  const image = context.createImageData(canvas.width, canvas.height);
  const middleX = plan.leftMm + plan.trimWidthMm / 2;
  const middleY = plan.topMm + plan.trimHeightMm / 2;
  for (const rail of rails) {
    // A rail's far edge may fall a rounding beyond the last pixel.
    const right = Math.min(canvas.width, Math.round((rail.left + rail.width - left) * perMm));
    const bottom = Math.min(canvas.height, Math.round((rail.top + rail.height - top) * perMm));
    for (let y = Math.floor((rail.top - top) * perMm); y < bottom; y += 1)
      for (let x = Math.floor((rail.left - left) * perMm); x < right; x += 1) {
        const aside = left + (x + 0.5) / perMm - middleX;
        const down = top + (y + 0.5) / perMm - middleY;
        const light =
          job.ribs === 'upright' ? railLightAt(laid, aside, down) : railLightAt(laid, down, -aside);
        const grey = Math.round(255 * linearToSrgb(light));
        image.data.set([grey, grey, grey, 255], (y * canvas.width + x) * 4);
      }
  }
  context.putImageData(image, 0, 0);
};

export const RailsView = () => {
  const job = useJob();
  const units = useUnits();
  const [degrees, setDegrees] = useState(0.2);
  const [drift, setDrift] = useState(0);
  const canvas = useRef<HTMLCanvasElement>(null);
  const skewRad = degToRad(deg(degrees));
  const { pitchMm } = job.lens;
  useEffect(() => {
    if (canvas.current === null) return;
    paint(canvas.current, job, {
      skewRad,
      pitchMm,
      driftPerMm: drift / MM_PER_INCH,
      smear: smearOf(job),
    });
  }, [job, skewRad, pitchMm, drift]);
  if (!pageOf(job).rails) return <Prose>Rails are left out of this page.</Prose>;
  const lengthMm = job.ribs === 'upright' ? job.print.heightMm : job.print.widthMm;
  const stripes = stripesOfSkew(skewRad, lengthMm, pitchMm);
  const { moveMm } = skewFromStripes(stripes, lengthMm, pitchMm);
  const move = `${formatLength(mm(moveMm), units)} ${units}`;
  const sideRails = job.ribs === 'upright' ? 'left and right' : 'top and bottom';
  const endRails = job.ribs === 'upright' ? 'top and bottom' : 'left and right';
  return (
    <Columns least={18} gap={4}>
      <canvas
        ref={canvas}
        className={styles['view']}
        role="img"
        aria-label={
          degrees === 0 && drift === 0
            ? 'Rails under the lens: even from end to end'
            : `Rails under the lens: ${trimmed(stripes, 1)} stripes along the long rails`
        }
      />
      <Stack>
        <Slider
          label="Lens turned"
          value={degrees}
          min={-1}
          max={1}
          step={0.01}
          valueText={`${withMinus(trimmed(degrees, 2))}°`}
          onChange={setDegrees}
        />
        <Slider
          label="Pitch off by"
          value={drift}
          min={-0.5}
          max={0.5}
          step={0.01}
          valueText={`${withMinus(trimmed(drift, 2))} LPI`}
          onChange={setDrift}
        />
        <Figure
          label="Stripes along a rail"
          value={trimmed(stripes, 2)}
          relation={`H tan α / p = ${trimmed(lengthMm, 1)} mm × tan ${trimmed(Math.abs(degrees), 2)}° / ${trimmed(pitchMm, 4)} mm`}
          relationNumber={7}
        >
          Count dark stripes from one end to the other.
        </Figure>
        <Figure
          label="Move the far end"
          value={move}
          relation={`stripes × p = ${trimmed(stripes, 2)} × ${trimmed(pitchMm, 4)} mm`}
          relationNumber={7}
        >
          Sideways, the near end held: one rib’s width for each stripe. The right way is the one in
          which stripes get fewer.
        </Figure>
        <p>
          The <strong>{sideRails}</strong> rails run along the ribs and judge squareness: even from
          end to end means square, stripes across them mean turned. The <strong>{endRails}</strong>{' '}
          rails run across the ribs and judge the pitch: stripes along the ribs mean that print and
          lens differ, and no turning cures that. Stripes that slant are both at once.
        </p>
      </Stack>
    </Columns>
  );
};
