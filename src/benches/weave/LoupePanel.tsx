/** The loupe: the woven dots at 1:1 or larger, anywhere on the sheet, without weaving all of it. */
import type { KeyboardEvent, PointerEvent } from 'react';
import { useEffect, useMemo, useRef, useState } from 'react';
import { trimmed } from '../../core/units/format.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import { columnMap } from '../../core/weave/column-map.ts';
import type { SheetSpec } from '../../core/weave/sheet-spec.ts';
import { dotsAcross } from '../../core/weave/sheet-spec.ts';
import { framesInSlots, sheetDensity, sheetSpecOf } from '../../job/selectors.ts';
import { useJob, useView, useWork } from '../../state/hooks.ts';
import { Button, ChoiceField, Notice, Panel } from '../../ui/index.ts';
import type { DotWindow } from './loupe-view.ts';
import { dotFacts, ribEdges, windowAround } from './loupe-view.ts';
import { useLoupeDots } from './use-loupe.ts';
import styles from './weave.module.css';

const zooms = ['1', '2', '4', '8'] as const;
type Zoom = (typeof zooms)[number];

/** Ribs closer together than this on screen would hide the dots. */
const LEAST_RIB_PX = 6;

const useMiddle = (sheet: SheetSpec) => {
  const loupeX = useView((view) => view.loupeX);
  const loupeY = useView((view) => view.loupeY);
  const set = useView((view) => view.set);
  const share = (value: number) => Math.min(1, Math.max(0, value));
  return {
    x: loupeX * sheet.widthDots,
    y: loupeY * sheet.heightDots,
    moveTo: (x: number, y: number) =>
      set({ loupeX: share(x / sheet.widthDots), loupeY: share(y / sheet.heightDots) }),
  };
};

/** Size of the box in device pixels, so that 1:1 is one dot to one pixel of the screen. */
const useDevicePixels = (box: React.RefObject<HTMLDivElement | null>) => {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const host = box.current;
    if (host === null) return undefined;
    const measure = () =>
      setSize({
        width: Math.round(host.clientWidth * devicePixelRatio),
        height: Math.round(host.clientHeight * devicePixelRatio),
      });
    const watch = new ResizeObserver(measure);
    watch.observe(host);
    return () => watch.disconnect();
  }, [box]);
  return size;
};

const Ribs = ({ sheet, shown }: { readonly sheet: SheetSpec; readonly shown: DotWindow }) => {
  const upright = sheet.ribs === 'upright';
  const [from, size] = upright ? [shown.left, shown.width] : [shown.top, shown.height];
  return (
    <svg className={styles['ribs']} aria-hidden="true">
      {ribEdges(sheet, from, from + size).map((edge) => {
        const at = `${((edge - from) / size) * 100}%`;
        return upright ? (
          <line key={edge} x1={at} x2={at} y1="0" y2="100%" />
        ) : (
          <line key={edge} y1={at} y2={at} x1="0" x2="100%" />
        );
      })}
    </svg>
  );
};

interface DotsProps {
  readonly sheet: SheetSpec;
  readonly zoom: number;
  readonly showRibs: boolean;
}

const Dots = ({ sheet, zoom, showRibs }: DotsProps) => {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const size = useDevicePixels(box);
  const middle = useMiddle(sheet);
  const wanted = windowAround(sheet, middle.x, middle.y, size.width / zoom, size.height / zoom);
  const { shown, fault } = useLoupeDots(canvas, wanted);
  const drag = useRef<{ readonly x: number; readonly y: number }>(undefined);
  const dotsPerPx = (globalThis.devicePixelRatio || 1) / zoom;

  const onPointerMove = (event: PointerEvent) => {
    if (drag.current === undefined) return;
    const { x, y } = drag.current;
    drag.current = { x: event.clientX, y: event.clientY };
    middle.moveTo(
      middle.x - (event.clientX - x) * dotsPerPx,
      middle.y - (event.clientY - y) * dotsPerPx,
    );
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const step = event.shiftKey ? 10 : 1;
    const moves: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, -step],
      ArrowDown: [0, step],
    };
    const move = moves[event.key];
    if (move === undefined) return;
    event.preventDefault();
    middle.moveTo(middle.x + move[0], middle.y + move[1]);
  };
  const style =
    shown === undefined
      ? { visibility: 'hidden' as const }
      : {
          width: `${(shown.width * zoom) / (globalThis.devicePixelRatio || 1)}px`,
          height: `${(shown.height * zoom) / (globalThis.devicePixelRatio || 1)}px`,
        };
  const across = sheet.ribs === 'upright' ? shown?.width : shown?.height;
  const ribPx =
    ((sheet.viewingPitchMm * sheet.acrossDpi) / MM_PER_INCH) * (zoom / devicePixelRatio);
  return (
    <>
      <div
        ref={box}
        className={styles['dots']}
        role="img"
        aria-label="Woven dots. Drag, or press arrow keys to move by one dot, with Shift by ten."
        tabIndex={0}
        data-testid="loupe"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          drag.current = { x: event.clientX, y: event.clientY };
        }}
        onPointerMove={onPointerMove}
        onPointerUp={() => (drag.current = undefined)}
        onPointerCancel={() => (drag.current = undefined)}
        onKeyDown={onKeyDown}
      >
        <canvas ref={canvas} style={style} />
        {showRibs && shown !== undefined && across !== undefined && ribPx >= LEAST_RIB_PX && (
          <div style={{ position: 'absolute', inset: 0, ...style }}>
            <Ribs sheet={sheet} shown={shown} />
          </div>
        )}
        <div className={styles['crosshair']} aria-hidden="true" />
      </div>
      {fault !== undefined && <Notice kind="problem">{fault}</Notice>}
    </>
  );
};

const SheetMap = ({ sheet }: { readonly sheet: SheetSpec }) => {
  const job = useJob();
  const middle = useMiddle(sheet);
  const thumbnails = useWork((work) => work.thumbnails);
  const inSlots = framesInSlots(job);
  const picture = thumbnails.get(inSlots[Math.floor(inSlots.length / 2)]?.id ?? '');
  const jump = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    middle.moveTo(
      ((event.clientX - box.left) / box.width) * sheet.widthDots,
      ((event.clientY - box.top) / box.height) * sheet.heightDots,
    );
  };
  // By pointer only: keys move the dots themselves.
  return (
    <div
      className={styles['map']}
      style={{ aspectRatio: `${job.print.widthMm} / ${job.print.heightMm}`, width: '100%' }}
      aria-hidden="true"
      onPointerDown={jump}
    >
      {picture !== undefined && <img src={picture} alt="" />}
      <div
        className={styles['window']}
        style={{
          left: `${(middle.x / sheet.widthDots) * 100}%`,
          top: `${(middle.y / sheet.heightDots) * 100}%`,
        }}
      />
    </div>
  );
};

const Readout = ({ sheet }: { readonly sheet: SheetSpec }) => {
  const job = useJob();
  const middle = useMiddle(sheet);
  const map = useMemo(() => columnMap(sheet), [sheet]);
  const column = Math.min(sheet.widthDots - 1, Math.floor(middle.x));
  const row = Math.min(sheet.heightDots - 1, Math.floor(middle.y));
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const dot = Math.min(dotsAcross(sheet) - 1, sheet.ribs === 'upright' ? column : row);
  const { lenticule, place, shares } = dotFacts(sheet, map, dot);
  const inMm = (dots: number, dpi: number) => trimmed(((dots + 0.5) * MM_PER_INCH) / dpi, 2);
  return (
    <dl className={styles['readout']}>
      <dt>Dot</dt>
      <dd>
        {column + 1} across, {row + 1} down ({inMm(column, horizontalDpi)} ×{' '}
        {inMm(row, verticalDpi)} mm)
      </dd>
      <dt>Lenticule</dt>
      <dd>
        {lenticule} from the middle, place {trimmed(place, 3)} under the rib
      </dd>
      <dt>Shows</dt>
      <dd>
        {shares
          .map(({ slot, share }) => `slot ${slot} (${trimmed(share * 100, 0)} %)`)
          .join(' and ')}
      </dd>
    </dl>
  );
};

export const LoupePanel = () => {
  const job = useJob();
  const sheet = useMemo(() => sheetSpecOf(job), [job]);
  const [zoom, setZoom] = useState<Zoom>('4');
  const [showRibs, setShowRibs] = useState(true);
  return (
    <Panel
      title="Loupe"
      actions={
        <div className={styles['buttons']}>
          <ChoiceField<Zoom>
            compact
            label="Enlarged"
            choices={zooms.map((value) => ({ value, label: `${value}:1` }))}
            value={zoom}
            onChange={setZoom}
          />
          <Button aria-pressed={showRibs} onClick={() => setShowRibs(!showRibs)}>
            Show ribs
          </Button>
        </div>
      }
    >
      <div className={styles['loupe']}>
        <div>
          <Dots sheet={sheet} zoom={Number(zoom)} showRibs={showRibs} />
        </div>
        <SheetMap sheet={sheet} />
      </div>
      <Readout sheet={sheet} />
    </Panel>
  );
};
