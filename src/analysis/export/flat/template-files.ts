/** Templates as drawings, 1:1. */
import { circleContour, slotContour, straightContour } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { Stages } from '../../stages/stages.js';
import { dxfOf } from './dxf.js';
import { SCALE_LINE, type DrawingEntity, type FlatDrawing } from './flat-drawing.js';
import { templateFileNames } from '../file-names.js';
import type { ExportFile } from '../exporter.js';
import type { MountingRow } from '../../report/joining/mountings.js';
import { CUT_OUT_ROOM, templatesOf, type MountingSide, type Template } from './template.js';
import { fixed } from '../../model/wording.js';

export function* templateFiles(stages: Stages): Iterable<ExportFile> {
  const templates = templatesOf(stages);
  const names = templateFileNames(
    stages.tub.name,
    templates.map(({ name }) => name),
  );
  for (const [i, template] of templates.entries()) {
    yield { name: `${names[i]}.dxf`, content: dxfOf(drawTemplate(stages.tub.name, template), names[i]) };
  }
}

const BELOW = 20;
const PITCH = 8;

/** Drill holes and slots on the layer of inner cuts, the cut-out on that of outer ones, the panels only as a pen line. */
export const drawTemplate = (tub: string, template: Template): FlatDrawing => {
  const { panels, bolts, slots, cutOut } = template;
  const points = [...panels, ...cutOut].flat();
  const least = (k: 0 | 1): number => points.reduce((m, p) => Math.min(m, p[k]), Infinity);
  const most = (k: 0 | 1): number => points.reduce((m, p) => Math.max(m, p[k]), -Infinity);
  const [left, low]: Vec2 = [least(0), least(1)];
  const lines = templateWords(template);
  const shapes: DrawingEntity[] = [
    ...cutOut.map((ring): DrawingEntity => ({ kind: 'contour', layer: 'CUT_OUTER', contour: straightContour(ring) })),
    ...bolts.map(({ center, diameter }): DrawingEntity => ({
      kind: 'circle',
      layer: 'CUT_INNER',
      center,
      radius: diameter / 2,
    })),
    ...slots.map(({ from, to, width }): DrawingEntity => ({
      kind: 'contour',
      layer: 'CUT_INNER',
      contour:
        from[0] === to[0] && from[1] === to[1] ? circleContour(from, width / 2) : slotContour(from, to, width / 2),
    })),
    ...panels.map((ring): DrawingEntity => ({ kind: 'polyline', layer: 'PEN_PLACE', points: ring, closed: true })),
    ...bolts.flatMap(({ center: [x, y] }): DrawingEntity[] => [
      { kind: 'line', layer: 'PEN_PLACE', from: [x - 5, y], to: [x + 5, y] },
      { kind: 'line', layer: 'PEN_PLACE', from: [x, y - 5], to: [x, y + 5] },
    ]),
  ];
  return {
    name: `template ${template.name}`,
    tub,
    entities: [
      ...shapes,
      { kind: 'line', layer: 'SCALE_100MM', from: [left, low - BELOW], to: [left + SCALE_LINE, low - BELOW] },
      ...lines.map((text, i): DrawingEntity => ({
        kind: 'text',
        layer: 'READ_TEXT',
        at: [left, low - BELOW - PITCH * (i + 1)],
        height: 5,
        text,
      })),
    ],
    extent: {
      min: [left, low - BELOW - PITCH * (lines.length + 1)],
      max: [Math.max(most(0), left + SCALE_LINE), most(1)],
    },
  };
};

const SIDES: Readonly<Record<MountingSide, string>> = {
  left: 'left',
  right: 'right',
  front: 'front',
  back: 'back',
  bottom: 'underside',
  top: 'top',
};

/** What is to be known of a template, in mm. */
export const templateWords = ({ name, side, hung, cutOut, mouth }: Template): readonly string[] => [
  `Template for ${name}, 1:1, seen from the tub onto the surface that it is fastened to: print side up`,
  `The surface lies against the ${SIDES[side]} of ${hung ? 'the tub' : name}; up on the print is up the surface, on a level one to the back`,
  'Holes are the clearance holes of the thread, or the hole of the tub where it names no fastener; tap or drill as the joint asks',
  ...(hung === 'from below' ? ['The tub is fastened from below: it keeps under the surface'] : []),
  ...(hung === 'from above' ? ['The tub is dropped in from above: all that goes beyond the surface goes through'] : []),
  ...(mouth ? mouthWords(mouth) : []),
  ...(!mouth && cutOut.length > 0
    ? [
        `Cut-out: all that goes on beyond the surface, with ${CUT_OUT_ROOM} mm of room; check it on the finished tub before cutting`,
      ]
    : []),
];

const mouthWords = ({ mouths, through, bolts_count: bolts, bolts_in_mouth_count: open }: MountingRow): string[] => {
  const [passing, stopped] = [true, false].map((isIn) => through.filter(({ room_mm: room }) => room >= 0 === isIn));
  const least = Math.min(...passing.map(({ room_mm: room }) => room));
  return [
    ...mouths.map(
      ({ name, width_mm: wide, height_mm: high }) => `Cut-out: ${name} as stated, ${wide} x ${high} mm over all`,
    ),
    ...stopped.map(
      ({ part, room_mm: room }) =>
        `${part} does NOT go through: it reaches ${fixed(-room, 1)} mm past the edge as it is put in straight`,
    ),
    ...(passing.length > 0
      ? [
          `${passing.map(({ part }) => part).join(', ')} go through it, ${fixed(least, 1)} mm clear of its edge at least`,
        ]
      : []),
    ...(through.length === 0 ? ['Nothing of the tub goes through it'] : []),
    ...(open > 0 ? [`${open} of the ${bolts} holes lie in the mouth or over its edge: nothing holds there`] : []),
  ];
};
