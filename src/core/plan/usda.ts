/**
 * The rig as OpenUSD text. Camera attributes follow the published UsdGeomCamera schema: apertures, their offsets and
 * the focal length in tenths of a scene unit, distances in scene units. The window at unit distance is (±aperture / 2
 * + offset) / focal length; the camera looks along −Z, Y up.
 */
import type { Rig, RigCamera } from './rig.ts';
import { focalFor } from './rig.ts';

export interface UsdaChoices {
  readonly title: string;
  /** Name of the scene unit, for the comments. */
  readonly unitName: string;
  readonly unitMm: number;
  readonly sensorMm: number;
  /** Distance of the nearest and the farthest thing from the cameras, scene units; left out when unknown. */
  readonly nearest?: number;
  readonly farthest?: number;
}

/** Twelve digits: precise enough, and free of binary rounding. */
const num = (value: number): string => String(Number(value.toPrecision(12)));

/** One line without quotes, which would end a comment or a string. */
const plain = (text: string): string => text.replace(/[\s"\\]+/g, ' ').trim();

const conventions = (rig: Rig, choices: UsdaChoices): string[] => [
  `Camera rig for a lenticular print: ${plain(choices.title)}`,
  'Axes: right-handed, X to the right, Y up, cameras look along -Z.',
  'The key plane (no parallax) is z = 0; its middle is the origin. Things behind it have z < 0.',
  `One scene unit is ${num(choices.unitMm)} mm (${plain(choices.unitName)}); metersPerUnit says the same.`,
  'Views are numbered from the leftmost camera: view 1 has the smallest X.',
  'Apertures, aperture offsets and focal length are in tenths of a scene unit (UsdGeomCamera).',
  'Offset sign: a camera at X > 0 has a negative horizontalApertureOffset,',
  'offset = -X / width at the key plane * horizontalAperture. Never turn the cameras in as well.',
  `Render the whole aperture: ${num(rig.keyWidth)} x ${num(rig.keyHeight)} scene units at the key plane.`,
];

const head = (rig: Rig, choices: UsdaChoices, extra: readonly string[]): string[] => [
  '#usda 1.0',
  '(',
  '    defaultPrim = "Rig"',
  ...extra.map((line) => `    ${line}`),
  `    metersPerUnit = ${num(choices.unitMm / 1000)}`,
  '    upAxis = "Y"',
  ')',
  '',
  ...conventions(rig, choices).map((line) => `# ${line}`),
  '',
];

/** Far beyond the scene on both sides, so that no renderer cuts anything off. */
const clipping = (rig: Rig, { nearest, farthest }: UsdaChoices): string =>
  `(${num(Math.min(nearest ?? Infinity, rig.keyDistance) / 10)}, ${num(
    Math.max(farthest ?? 0, rig.keyDistance) * 100,
  )})`;

const tenths = (lengthMm: number, { unitMm }: UsdaChoices): number => (lengthMm / unitMm) * 10;

const lensLines = (rig: Rig, choices: UsdaChoices): string[] => {
  const aperture = tenths(choices.sensorMm, choices);
  return [
    'token projection = "perspective"',
    `float horizontalAperture = ${num(aperture)}`,
    `float verticalAperture = ${num((aperture * rig.keyHeight) / rig.keyWidth)}`,
    'float verticalApertureOffset = 0',
    `float focalLength = ${num(focalFor(aperture, rig.keyWidth, rig.keyDistance))}`,
    `float focusDistance = ${num(rig.keyDistance)}`,
    `float2 clippingRange = ${clipping(rig, choices)}`,
  ];
};

const place = (rig: Rig, { x }: RigCamera): string => `(${num(x)}, 0, ${num(rig.keyDistance)})`;
const offset = (choices: UsdaChoices, { windowShift }: RigCamera): string =>
  num(windowShift * tenths(choices.sensorMm, choices));

const order = 'uniform token[] xformOpOrder = ["xformOp:translate"]';
const indent = (lines: readonly string[], by: string): string[] =>
  lines.map((line) => `${by}${line}`);

/** One camera that is at view n at time n; render times 1 to N, whole numbers only. */
export const usdaAnimated = (rig: Rig, choices: UsdaChoices): string => {
  const samples = (value: (camera: RigCamera) => string) => [
    '{',
    ...rig.cameras.map((camera) => `    ${camera.view + 1}: ${value(camera)},`),
    '}',
  ];
  const [open, ...places] = samples((camera) => place(rig, camera));
  const [, ...offsets] = samples((camera) => offset(choices, camera));
  return [
    ...head(rig, choices, [
      'startTimeCode = 1',
      `endTimeCode = ${rig.cameras.length}`,
      'timeCodesPerSecond = 24',
      'framesPerSecond = 24',
    ]),
    `# Time n is view n: render times 1 to ${rig.cameras.length} without motion blur.`,
    'def Xform "Rig"',
    '{',
    '    def Camera "Camera"',
    '    {',
    ...indent(
      [
        ...lensLines(rig, choices),
        `float horizontalApertureOffset.timeSamples = ${open ?? '{'}`,
        ...offsets,
        `double3 xformOp:translate.timeSamples = ${open ?? '{'}`,
        ...places,
        order,
      ],
      '        ',
    ),
    '    }',
    '}',
    '',
  ].join('\n');
};

/** One camera for each view, named View_01 … from the left. */
export const usdaRow = (rig: Rig, choices: UsdaChoices): string =>
  [
    ...head(rig, choices, []),
    'def Xform "Rig"',
    '{',
    ...rig.cameras.flatMap((camera) => [
      `    def Camera "View_${viewNumber(camera, rig)}"`,
      '    {',
      ...indent(
        [
          ...lensLines(rig, choices),
          `float horizontalApertureOffset = ${offset(choices, camera)}`,
          `double3 xformOp:translate = ${place(rig, camera)}`,
          order,
        ],
        '        ',
      ),
      '    }',
    ]),
    '}',
    '',
  ].join('\n');

const viewNumber = ({ view }: RigCamera, rig: Rig): string =>
  String(view + 1).padStart(Math.max(2, String(rig.cameras.length).length), '0');
