/** The loupe's picture: woven dots at whole enlargements, the ribs over them, and what moves it. */
import type { RefObject } from 'react';
import { useEffect, useRef, useState } from 'react';
import { MM_PER_INCH } from '../../core/units/units.ts';
import type { SheetSpec } from '../../core/weave/sheet-spec.ts';
import { dotsAcross } from '../../core/weave/sheet-spec.ts';
import type { Span } from '../../preview/loupe-view.ts';
import { ribEdges, spanAround, windowIn } from '../../preview/loupe-view.ts';
import { Notice, useGrip } from '../../ui/index.ts';
import { useLoupeDots } from './use-loupe.ts';
import { useMiddle } from './use-middle.ts';
import styles from './weave.module.css';

/** Ribs closer together than this on screen would hide the dots. */
const LEAST_RIB_PX = 6;

/** Size of the box in device pixels, so that 1:1 is one dot to one pixel of the screen. */
const useDevicePixels = (box: RefObject<HTMLDivElement | null>) => {
  const [size, setSize] = useState({ width: 0, height: 0, perCssPx: 1 });
  useEffect(() => {
    const host = box.current;
    if (host === null) return undefined;
    const measure = () => {
      const perCssPx = devicePixelRatio || 1;
      setSize({
        width: Math.round(host.clientWidth * perCssPx),
        height: Math.round(host.clientHeight * perCssPx),
        perCssPx,
      });
    };
    const watch = new ResizeObserver(measure);
    watch.observe(host);
    return () => watch.disconnect();
  }, [box]);
  return size;
};

interface RibsProps {
  readonly sheet: SheetSpec;
  /** Of the box, across the ribs. */
  readonly across: Span;
}

/** The ribs' edges at the woven pitch, between dots where they fall there. */
const Ribs = ({ sheet, across }: RibsProps) => {
  const from = Math.max(0, across.origin);
  const to = Math.min(dotsAcross(sheet), across.origin + across.size);
  return (
    <svg className={styles['ribs']} aria-hidden="true" data-testid="ribs">
      {ribEdges(sheet, from, to).map((edge) => {
        const at = `${((edge - across.origin) / across.size) * 100}%`;
        return sheet.ribs === 'upright' ? (
          <line key={edge} x1={at} x2={at} y1="0" y2="100%" />
        ) : (
          <line key={edge} y1={at} y2={at} x1="0" x2="100%" />
        );
      })}
    </svg>
  );
};

interface Props {
  readonly sheet: SheetSpec;
  readonly zoom: number;
  readonly showRibs: boolean;
}

export const LoupeDots = ({ sheet, zoom, showRibs }: Props) => {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const size = useDevicePixels(box);
  const middle = useMiddle(sheet);
  const across = spanAround(middle.x, sheet.widthDots, size.width / zoom);
  const down = spanAround(middle.y, sheet.heightDots, size.height / zoom);
  const { shown, fault, waiting } = useLoupeDots(canvas, windowIn(sheet, across, down));
  const cssPxPerDot = zoom / size.perCssPx;

  const { handlers } = useGrip({
    take: () => middle,
    pull: ({ x, y }, { dx, dy }) => middle.moveTo(x - dx / cssPxPerDot, y - dy / cssPxPerDot),
    cancel: ({ x, y }) => middle.moveTo(x, y),
    step: (right, down, big) => middle.moveBy(right * (big ? 10 : 1), down * (big ? 10 : 1)),
  });
  // Whole device pixels, so that no dot is drawn across two of them.
  const place = (first: number, span: Span) =>
    `${Math.round((first - span.origin) * zoom) / size.perCssPx}px`;
  const ribPx = ((sheet.viewingPitchMm * sheet.acrossDpi) / MM_PER_INCH) * cssPxPerDot;
  return (
    <>
      <div
        ref={box}
        className={styles['dots']}
        role="img"
        aria-label="Woven dots. Drag, or press arrow keys to move by one dot, with Shift by ten."
        tabIndex={0}
        data-testid="loupe"
        {...handlers}
      >
        <canvas
          ref={canvas}
          style={
            shown === undefined
              ? { visibility: 'hidden' }
              : {
                  left: place(shown.left, across),
                  top: place(shown.top, down),
                  width: `${shown.width * cssPxPerDot}px`,
                  height: `${shown.height * cssPxPerDot}px`,
                }
          }
        />
        {showRibs && size.width > 0 && ribPx >= LEAST_RIB_PX && (
          <Ribs sheet={sheet} across={sheet.ribs === 'upright' ? across : down} />
        )}
        <div className={styles['crosshair']} aria-hidden="true" />
        {waiting !== undefined && <p className={styles['waiting']}>{waiting}</p>}
      </div>
      {fault !== undefined && <Notice kind="problem">{fault}</Notice>}
    </>
  );
};
