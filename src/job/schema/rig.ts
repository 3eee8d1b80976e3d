/** What the Shoot bench keeps: the scene's units, where the cameras stand, the timed frame. */
import * as v from 'valibot';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

/** In scene units: from a millionth to a thousand million of them. */
const sceneLength = (what: string) => measure(what, 1e-6, 1e9, ' scene units');

export const rigSchema = openObject({
  /** Left out: millimetres. */
  unit: v.optional(v.picklist(['mm', 'cm', 'm', 'in', 'ft', 'own'])),
  ownUnitMm: v.optional(measure('Size of a scene unit', 1e-6, 1e9, ' mm')),
  /** Left out: the print's own width. */
  keyWidth: v.optional(sceneLength('Width at the key plane')),
  /** What gives the cameras' distance: the viewing distance, a camera's lens, or a typed distance. */
  stand: v.optional(v.picklist(['viewer', 'camera', 'own'])),
  keyDistance: v.optional(sceneLength('Key plane distance')),
  focalMm: v.optional(measure('Focal length', 0.1, 10000, ' mm')),
  sensorMm: v.optional(measure('Sensor width', 0.1, 2000, ' mm')),
  /** Distance of the nearest thing in front of the key plane and of the farthest behind it, scene units. */
  near: v.optional(measure('Nearest thing', 0, 1e9, ' scene units')),
  far: v.optional(measure('Farthest thing', 0, 1e9, ' scene units')),
  way: v.optional(v.picklist(['rendered', 'rail', 'turned-in', 'turntable'])),
  oversampling: v.optional(measure('Samples a lenticule', 1, 8, '')),
  /** One timed frame. */
  frameHours: v.optional(measure('Hours for one frame', 0.0001, 10000, ' hours')),
  timedWidthPx: v.optional(wholeMeasure('Timed frame’s width', 1, 100000)),
  timedHeightPx: v.optional(wholeMeasure('Timed frame’s height', 1, 100000)),
  /** The chosen frame width; the height follows from the print's shape. Left out: the advised one. */
  frameWidthPx: v.optional(wholeMeasure('Frame width', 1, 100000)),
});
export type RigChoices = v.InferOutput<typeof rigSchema>;
