/** Reading the strip by a photo, in a studio; only the worker's answer is laid in by hand. */
import { fireEvent, renderHook, screen, waitFor, within } from '@testing-library/react';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import Calibrate from '../../src/benches/calibrate/index.tsx';
import type { Outcome } from '../../src/contract/errors.ts';
import { StudioError } from '../../src/contract/errors.ts';
import type { StripPhotoAnswer, StripPhotoRequest } from '../../src/contract/photo.ts';
import type { PhotoCorners, PhotoReading } from '../../src/core/pitch/photo/photo.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { useNoStrayDrops } from '../../src/ui/index.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

type Call = { readonly signal: AbortSignal; readonly report: (share: number) => void };
type Read = (
  request: Omit<StripPhotoRequest, 'id'>,
  call: Call,
) => Promise<Outcome<StripPhotoAnswer>>;
const readPhoto = vi.hoisted(() => vi.fn());
vi.mock('../../src/calls/photo.ts', () => ({ readPhoto, readScan: vi.fn() }));

const corners: PhotoCorners = [
  { xPx: 100, yPx: 80 },
  { xPx: 900, yPx: 80 },
  { xPx: 900, yPx: 520 },
  { xPx: 100, yPx: 520 },
];
const PITCH = 59.95;

/** As the core would answer for the strip that was asked about. */
const readingOf = ({ strip, readAtMm, corners: set }: Omit<StripPhotoRequest, 'id'>) => {
  const widthIn = strip.bandDots / strip.acrossDpi;
  const fit = (lpi: number) => ({
    fringes: (lpi - PITCH) * widthIn + 0.01,
    sigma: 0.02,
    outline: corners,
    used: true,
  });
  const reading: PhotoReading = {
    ok: true,
    pitchLpi: PITCH,
    sigmaLpi: 0.004,
    sigmaTypedLpi: 0.004,
    skewRad: 0.01,
    skewSigmaRad: 0.0005,
    cornersFound: set ?? corners,
    bands: strip.bandsLpi.map((bandLpi, band) => ({
      ...fit(bandLpi),
      band,
      bandLpi,
      fittedFringes: (bandLpi - PITCH) * widthIn,
      residual: 0.01,
    })),
    phase: fit(strip.bandsLpi[(strip.bandsLpi.length - 1) / 2]!),
    cameraMm: readAtMm ?? 410,
    cameraFrom: readAtMm === undefined ? 'perspective' : 'typed',
    cautions: [],
  };
  return reading;
};
const answer = (reading: PhotoReading): Outcome<StripPhotoAnswer> => ({
  done: true,
  value: { widthPx: 1000, heightPx: 600, reading },
});
const answering = (read: Read) => readPhoto.mockImplementation(read);
const good: Read = async (request) => answer(readingOf(request));
const refusal: Read = async () =>
  answer({
    ok: false,
    reason: 'no-corners',
    sentence: 'The corner marks were not found.',
    whatToDo: 'Drag the four handles onto them.',
  });
const lastRequest = () => readPhoto.mock.lastCall?.[0] as Omit<StripPhotoRequest, 'id'>;

const job = () => studio.document.getState().job;
const handles = () => screen.getAllByRole('button', { name: /^Corner mark/ });
const field = (name: string) => screen.getByRole('textbox', { name });
const photo = () => new File(['picture'], 'strip.jpg', { type: 'image/jpeg' });

const dropped = async () => {
  const { user } = renderIn(studio, <Calibrate />);
  await user.click(screen.getByText('Or photograph it'));
  await user.upload(screen.getByLabelText('Choose a photo', { selector: 'input' }), photo());
  return user;
};

beforeEach(() => {
  studio = makeStudio();
  vi.spyOn(HTMLCanvasElement.prototype, 'getContext').mockReturnValue(null);
  URL.createObjectURL = () => 'blob:photo';
  URL.revokeObjectURL = () => undefined;
  readPhoto.mockReset();
});

describe('a photo that can be read', () => {
  it('proves the pitch with method, ± and skew, is told in the history, and undo takes it back', async () => {
    answering(good);
    const user = await dropped();
    expect(await screen.findByText('Woven pitch, by the photo')).toBeVisible();
    // Two standard deviations.
    expect(screen.getAllByText(/59\.95 ±0\.008 LPI/)[0]).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Use this pitch' }));
    await screen.findByText(/is on the job sheet/);
    const proved = job().provedPitch;
    expect(proved).toMatchObject({ method: 'photo', readFromMm: 400, direction: 'upright' });
    expect(25.4 / (proved?.viewingPitchMm ?? NaN)).toBeCloseTo(PITCH, 9);
    expect(proved?.plusMinusLpi).toBeCloseTo(0.008, 9);
    // 0.01 radians are 0.573°.
    expect(proved?.skewDeg).toBeCloseTo(0.573, 3);
    const history = screen.getByRole('table', { name: /For this lens, printer setting/ });
    expect(within(history).getByText(/photo, lens 0\.573 ±0\.057° askew/)).toBeVisible();
    studio.document.getState().undo();
    expect(job().provedPitch).toBeUndefined();
  });

  it('tells every band, the phase strip, and which way to turn the print', async () => {
    answering(good);
    await dropped();
    const table = await screen.findByRole('table', { name: 'Fringes measured and fitted' });
    const bands = job().pitchStrip?.woven?.bandsLpi ?? lastRequest().strip.bandsLpi;
    expect(within(table).getAllByRole('row')).toHaveLength(bands.length + 2);
    const phase = within(table).getByRole('row', { name: /^Phase strip/ });
    expect(
      within(phase)
        .getAllByRole('cell')
        .map((cell) => cell.textContent),
    ).toContain('0.01');
    expect(screen.getByRole('img', { name: /bands and the phase strip found/ })).toBeVisible();
    expect(screen.getByText(/turn the print 0\.573° clockwise under the lens/)).toBeVisible();
  });

  it('is read again with the camera’s distance, which is refused where no camera stands', async () => {
    answering(good);
    const user = await dropped();
    await screen.findByText(/410 mm away, from the perspective/);
    await user.type(field('Camera distance'), '20{Enter}');
    expect(field('Camera distance')).toHaveAccessibleDescription(/50 to 5000 mm/);
    expect(readPhoto).toHaveBeenCalledTimes(1);
    await user.clear(field('Camera distance'));
    await user.type(field('Camera distance'), '45 cm{Enter}');
    await screen.findByText(/450 mm away, as typed/);
    expect(lastRequest().readAtMm).toBe(450);
    expect(field('Camera distance')).toHaveValue('450');
  });

  it('gives way to a more exact reading, unless the person goes by it, and asks for its distance', async () => {
    // ±0.12 LPI, far from what a quarter zone over this print allows.
    answering(async (request) => answer({ ...readingOf(request), sigmaLpi: 0.06 }));
    const user = await dropped();
    expect(await screen.findByText(/type the camera distance.*±0\.008 LPI/)).toBeVisible();
    expect(screen.queryByRole('combobox', { name: 'Go by' })).toBeNull();
    const bands = screen.getByRole('combobox', { name: 'Best band' });
    await user.selectOptions(bands, within(bands).getAllByRole('option', { name: /^\d/ })[4]!);
    expect(await screen.findByText('Woven pitch, by the band')).toBeVisible();
    const by = screen.getByRole('combobox', { name: 'Go by' });
    await user.selectOptions(by, within(by).getByRole('option', { name: /^the photo/ }));
    expect(await screen.findByText('Woven pitch, by the photo')).toBeVisible();
    studio.document.getState().undo();
    expect(await screen.findByText('Woven pitch, by the band')).toBeVisible();
  });

  it('read for another lens is not believed, and can be read again', async () => {
    answering(good);
    const user = await dropped();
    await screen.findByText('Woven pitch, by the photo');
    studio.document
      .getState()
      .change('lens', (now) => ({ ...now, lens: { ...now.lens, thicknessMm: 1.2 } }));
    await waitFor(() => expect(screen.queryByText('Woven pitch, by the photo')).toBeNull());
    await user.click(screen.getByRole('button', { name: 'Read it again for this one' }));
    expect(await screen.findByText('Woven pitch, by the photo')).toBeVisible();
    expect(lastRequest().lens.thicknessMm).toBe(1.2);
  });
});

describe('a photo that cannot', () => {
  it('says what was wrong and what to do, and takes corners by the keyboard', async () => {
    answering(refusal);
    const user = await dropped();
    expect(await screen.findByText('The corner marks were not found.')).toBeVisible();
    expect(screen.getByText('Drag the four handles onto them.')).toBeVisible();
    expect(screen.queryByText('Woven pitch, by the photo')).toBeNull();
    const again = screen.getByRole('button', { name: 'Read with these corners' });
    expect(again).toHaveAttribute('aria-disabled', 'true');
    expect(handles()).toHaveLength(4);
    expect(handles()[0]).toHaveAccessibleName(/top left, at 100, 60/);
    handles()[0]!.focus();
    await user.keyboard('{ArrowRight}{ArrowDown}{ArrowDown}{Shift>}{ArrowLeft}{/Shift}');
    expect(handles()[0]).toHaveAccessibleName(/top left, at 81, 62/);
    answering(good);
    await user.click(again);
    expect(await screen.findByText('Woven pitch, by the photo')).toBeVisible();
    expect(lastRequest().corners?.[0]).toEqual({ xPx: 81, yPx: 62 });
    // What was set by hand stays set when the distance is typed after it.
    await user.type(field('Camera distance'), '450{Enter}');
    await screen.findByText(/450 mm away, as typed/);
    expect(lastRequest().corners?.[0]).toEqual({ xPx: 81, yPx: 62 });
  });

  it('takes corners by dragging, kept within the picture', async () => {
    answering(refusal);
    await dropped();
    await screen.findByText('The corner marks were not found.');
    // jsdom captures no pointer and lays nothing out.
    HTMLElement.prototype.setPointerCapture = vi.fn();
    const picture = handles()[2]!.parentElement!;
    picture.getBoundingClientRect = () => new DOMRect(10, 20, 500, 300);
    // React asks for the type alone; jsdom's own pointer events have no place.
    const pointer = (type: string, clientX: number, clientY: number) =>
      fireEvent(handles()[2]!, new MouseEvent(type, { bubbles: true, clientX, clientY }));
    const moveTo = (clientX: number, clientY: number) => pointer('pointermove', clientX, clientY);
    moveTo(260, 170);
    expect(handles()[2]).toHaveAccessibleName(/bottom right, at 900, 540/);
    pointer('pointerdown', 460, 290);
    moveTo(260, 170);
    expect(handles()[2]).toHaveAccessibleName(/bottom right, at 500, 300/);
    moveTo(900, 5);
    expect(handles()[2]).toHaveAccessibleName(/bottom right, at 1000, 0/);
    fireEvent.keyDown(handles()[2]!, { key: 'Escape' });
    expect(handles()[2]).toHaveAccessibleName(/bottom right, at 900, 540/);
    moveTo(260, 170);
    expect(handles()[2]).toHaveAccessibleName(/bottom right, at 900, 540/);
  });

  it('of a kind that cannot be opened is told, and another can be chosen', async () => {
    answering(() =>
      Promise.reject(new StudioError('not-a-picture', '"strip.jpg" is no picture.', 'strip.jpg')),
    );
    await dropped();
    expect(await screen.findByText('"strip.jpg" is no picture.')).toBeVisible();
    expect(screen.getByRole('button', { name: 'Choose a photo' })).toBeVisible();
  });
});

it('shows how far it is, and stops', async () => {
  answering(
    (_request, { signal, report }) =>
      new Promise((resolve) => {
        report(0.42);
        signal.addEventListener('abort', () => resolve({ done: false }));
      }),
  );
  const user = await dropped();
  const bar = await screen.findByRole('progressbar', { name: 'Reading the photo' });
  expect(bar).toHaveAttribute('value', '42');
  await user.click(screen.getByRole('button', { name: 'Stop' }));
  expect(await screen.findByText('Stopped.')).toBeVisible();
  expect(studio.tasks.state('a-job', 'stripPhoto').stage).toBe('stopped');
});

it('lets no file dropped beside its place make the browser leave the page', () => {
  const { unmount } = renderHook(useNoStrayDrops);
  const stray = (type: 'dragover' | 'drop', types: string[]) => {
    const event = new Event(type, { bubbles: true, cancelable: true });
    Object.assign(event, { dataTransfer: { types, files: [], dropEffect: 'copy' } });
    document.body.dispatchEvent(event);
    return event.defaultPrevented;
  };
  expect(stray('dragover', ['Files'])).toBe(true);
  expect(stray('drop', ['Files'])).toBe(true);
  expect(stray('drop', ['text/plain'])).toBe(false);
  unmount();
  expect(stray('drop', ['Files'])).toBe(false);
});
