/** Lays parts out as patterns of card. */
import { toPlane } from '../../geometry/frame.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { Part } from '../../fold/flat-pattern.js';
import type { Stages } from '../../stages/stages.js';
import { cardFlaps } from './card-flaps.js';
import { clockwiseRing } from './card-holes.js';
import type { CardFold, CardPanel, CardPattern } from './card-pattern.js';
import { placeFaces } from './place-faces.js';

/** `flapDepth`: mm on the part. Of every part whose panels are usable; loose clips and frames are left out, as are lips of hems. */
export const cardPatternsOf = (stages: Stages, flapDepth: number): CardPattern[] => {
  const { faces } = stages.shape();
  return stages
    .parts()
    .flatMap((part) => (part.faces.every((face) => faces[face].usable) ? [patternOf(stages, part, flapDepth)] : []));
};

const patternOf = (stages: Stages, part: Part, flapDepth: number): CardPattern => {
  const { faces, bends } = stages.shape();
  const placed = placeFaces(stages.shape(), part);
  const panels = placed.map(({ face, place }): CardPanel => ({
    name: faces[face].name,
    face,
    outline: faces[face].outline.map(place),
    holes: faces[face].openings.map(({ shape }) => clockwiseRing(shape).map(place)),
  }));
  const folds = part.bends.map((index): CardFold => {
    const bend = bends[index];
    const [a, b] = bend.faces.map((face) => placed.findIndex((each) => each.face === face));
    const { face, place } = placed[a];
    const at = (point: typeof bend.start): Vec2 => place(toPlane(faces[face].frame, point));
    return {
      name: bend.name,
      from: at(bend.start),
      to: at(bend.end),
      // In a valley of the wet face the panels turn away from who looks at the dry one.
      direction: bend.wet === 'inside' ? 'down' : 'up',
      angle: bend.angle,
      panels: [a, b],
    };
  });
  return { name: part.name, panels, folds, flaps: cardFlaps({ stages, part, placed, panels }, flapDepth) };
};
