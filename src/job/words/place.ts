/** What is said of a picture that was placed, or could not be. */
import type { PictureLight } from '../../core/colour/picture-light.ts';
import type { PictureMatch } from '../../core/frames/align/match-pictures.ts';
import { nameInText } from '../../core/names/shown.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Frame } from '../schema/job.ts';
import { sayPercent } from './bare.ts';

/** "Zoom 108 %, turned 2.5° clockwise"; of one that lies by itself, that it does. */
export const sayPlace = ({ place }: Frame): string => {
  if (place === undefined) return 'as “Picture shape” lays it';
  const { zoom, turnDeg } = place;
  const turned =
    Math.abs(turnDeg) < 0.005
      ? ''
      : `, turned ${trimmed(Math.abs(turnDeg), 2)}° ${turnDeg > 0 ? 'clockwise' : 'anticlockwise'}`;
  return `zoom ${sayPercent(zoom)}${turned}`;
};

const signed = (stops: number): string =>
  `${stops > 0 ? '+' : stops < 0 ? '−' : ''}${trimmed(Math.abs(stops), 2)}`;

export const sayStops = (stops: number): string => `${signed(stops)} stops`;

export const sayLight = ({ stops, warmth, tint }: PictureLight): string =>
  `brightness ${sayStops(stops)}, warmth ${sayStops(warmth)}, tint ${sayStops(tint)}`;

export const sayUnmatched = (
  match: Extract<PictureMatch, { found: false }>,
  frame: Frame,
  other: Frame,
): string => {
  const both = `${nameInText(frame.name)} and ${nameInText(other.name)}`;
  return match.why === 'plain'
    ? `${both} cannot be matched by themselves: one of them has too few corners to go by. Nothing was moved; match two points.`
    : `${both} cannot be matched by themselves: too few places in them agree (${match.agreeing}). Nothing was moved; match two points, if they show the same scene.`;
};

/** @param frame as it now lies */
export const sayMatched = (
  match: Extract<PictureMatch, { found: true }>,
  frame: Frame,
  other: Frame,
): string =>
  `${nameInText(frame.name)} lies on ${nameInText(other.name)}: ${match.agreeing} of ${match.compared} places agree. ` +
  `Now ${sayPlace(frame)}.`;
