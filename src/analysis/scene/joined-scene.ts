/** Where the folded parts close on one another, and what goes through them. */
import { circleContour, extentOfContour, slotContour, straightContour, type Contour } from '../geometry/contour.js';
import { toSpace } from '../geometry/frame.js';
import { distance2, type Vec3 } from '../geometry/vec.js';
import type { Opening, Tub } from '../model/tub.js';
import { inMm } from '../model/wording.js';
import { reportSeams, SEAM_COLUMNS } from '../report/joining/seams.js';
import { toFacts } from '../report/table.js';
import type { Face, FaceOpening } from '../shape/shape.js';
import type { Stages } from '../stages/stages.js';
import { drawn3, drawnLength, drawnRing, drawnUnit } from './drawn.js';
import { partKey } from './flat-scene.js';
import type { SceneEntry, Told } from './scene-items.js';

/** A seam that finds no shared edge is not drawn: a finding says so. */
export const seamEntries = (stages: Stages): SceneEntry[] => {
  const { seams } = stages.joints();
  return reportSeams(stages).flatMap((row, i): SceneEntry[] => {
    const { seam, method, runs } = seams[i];
    if (runs.length === 0) return [];
    return [
      {
        key: `seam:${row.name}`,
        at: stages.tub.seams[seam].at,
        item: {
          kind: 'seam',
          name: row.name,
          closedBy: row.closed_by,
          isClosed: method.closing !== 'none',
          thickness: drawnLength(Math.max(...runs.flatMap(({ run }) => run.sides.map(({ thickness }) => thickness)))),
          runs: runs.map(({ run }) => [drawn3(run.start), drawn3(run.end)] as const),
          told: { what: `Seam ${row.name}`, facts: toFacts(SEAM_COLUMNS, row) },
        },
      },
    ];
  });
};

/** Each in the body of its panel, so that it goes along when the tub is taken apart. */
export const openingEntries = (stages: Stages): SceneEntry[] => {
  const { tub } = stages;
  const partOf = new Map<number, string>();
  for (const flat of stages.flats()) {
    for (const { face } of flat?.panels ?? []) if (flat && face !== undefined) partOf.set(face, partKey(flat));
  }
  return stages.shape().faces.flatMap((face) =>
    face.openings.flatMap((opening): SceneEntry[] => {
      const part = partOf.get(face.panel);
      const { name, at } = tub.openings[opening.opening];
      if (part === undefined) return [];
      return [
        {
          key: `${opening.use === 'outlet' ? 'outlet' : 'opening'}:${name}`,
          at,
          item: {
            kind: 'opening',
            part,
            name,
            ring: openingRing(face, opening),
            normal: drawnUnit(face.frame.normal),
            told: toldOpening(tub, opening, face.name),
          },
        },
      ];
    }),
  );
};

/** On the wet face. */
export const openingRing = ({ frame }: Face, opening: FaceOpening): readonly Vec3[] =>
  drawnRing(openingContour(opening)).map((p) => drawn3(toSpace(frame, p)));

const openingContour = ({ shape }: FaceOpening): Contour => {
  if (shape.kind === 'polygon') return straightContour(shape.corners);
  return shape.kind === 'round'
    ? circleContour(shape.center, shape.radius)
    : slotContour(shape.from, shape.to, shape.radius);
};

const USES: Readonly<Record<Opening['use'], string>> = {
  outlet: 'Outlet',
  hole: 'Hole',
  cutout: 'Cut-out',
  slot: 'Slot',
};

const toldOpening = (tub: Tub, opening: FaceOpening, panel: string): Told => {
  const { use, name, fastener, strainer } = tub.openings[opening.opening];
  const outlet = tub.outlets.find((each) => each.opening === opening.opening);
  const cloth = strainer ?? outlet?.strainer;
  return {
    what: `${USES[use]} ${name}`,
    facts: [
      `in panel ${panel}`,
      sizeWords(opening),
      ...(outlet && outlet.lip > 0 ? [`lip ${inMm(outlet.lip)} down`] : []),
      ...(outlet && outlet.raised > 0 ? [`edge ${inMm(outlet.raised)} up`] : []),
      ...(cloth ? [`strainer ${cloth.size.map((side) => inMm(side)).join(' by ')}`] : []),
      ...(fastener ? [`for ${fastener.kind === 'rivetnut' ? 'a rivet nut' : 'a screw'} M${fastener.thread}`] : []),
    ],
  };
};

const sizeWords = ({ shape }: FaceOpening): string => {
  if (shape.kind === 'round') return `diameter ${inMm(2 * shape.radius)}`;
  if (shape.kind === 'slot')
    return `slot ${inMm(distance2(shape.from, shape.to) + 2 * shape.radius)} by ${inMm(2 * shape.radius)}`;
  const { min, max } = extentOfContour(straightContour(shape.corners));
  return `${inMm(max[0] - min[0])} by ${inMm(max[1] - min[1])}`;
};
