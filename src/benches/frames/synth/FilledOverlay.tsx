/** Where a made picture was filled, laid over it in stripes: light beside dark, so that the colour alone says nothing. */
import { useEffect, useRef } from 'react';
import type { FilledPlaces } from '../../../core/frames/synth/filled-places.ts';
import { Button } from '../../../ui/index.ts';
import { useView } from '../../studio.ts';

/** Faintest mark, of 1: what was filled only in part is seen as well. */
const FAINTEST = 0.5;
/** From stripe to stripe, in places. */
const PERIOD = 12;

/** One tile of slanting stripes; along a strip as thin as a place, dark and light take turns. */
const stripes = (colour: string, between: string): HTMLCanvasElement => {
  const tile = document.createElement('canvas');
  [tile.width, tile.height] = [PERIOD, PERIOD];
  const context = tile.getContext('2d');
  for (let y = 0; y < PERIOD; y += 1)
    for (let x = 0; x < PERIOD; x += 1) {
      if (context === null) break;
      context.fillStyle = (x + y) % PERIOD < PERIOD / 2 ? colour : between;
      context.fillRect(x, y, 1, 1);
    }
  return tile;
};

const paint = (canvas: HTMLCanvasElement, { columns, rows, holes }: FilledPlaces): void => {
  canvas.width = columns;
  canvas.height = rows;
  const context = canvas.getContext('2d');
  if (context === null) return;
  const data = new Uint8ClampedArray(4 * holes.length);
  for (let i = 0; i < holes.length; i += 1) {
    const share = holes[i] as number;
    if (share > 0) data[4 * i + 3] = 255 * FAINTEST + (1 - FAINTEST) * share;
  }
  context.putImageData(new ImageData(data, columns, rows), 0, 0);
  const style = getComputedStyle(canvas);
  const tile = stripes(
    style.getPropertyValue('--filled'),
    style.getPropertyValue('--filled-between'),
  );
  context.globalCompositeOperation = 'source-in';
  context.fillStyle = context.createPattern(tile, 'repeat') ?? style.getPropertyValue('--filled');
  context.fillRect(0, 0, columns, rows);
};

/** For the eye alone: words for it stand beside the picture. */
export const FilledOverlay = ({ places }: { readonly places: FilledPlaces }) => {
  const ref = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (ref.current !== null) paint(ref.current, places);
  }, [places]);
  return <canvas ref={ref} aria-hidden="true" />;
};

/** One setting for every picture that was made. */
export const ShowFilled = ({ off = false }: { readonly off?: boolean }) => {
  const { showFilled, set } = useView((view) => view);
  return (
    <Button
      off={off}
      aria-pressed={showFilled && !off}
      onClick={() => set({ showFilled: !showFilled })}
    >
      Show filled places
    </Button>
  );
};
