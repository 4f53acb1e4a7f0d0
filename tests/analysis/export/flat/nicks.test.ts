import { describe, expect, test } from 'vitest';
import { facingOf } from '../../../../src/analysis/fold/facing.js';
import { drawFlat } from '../../../../src/analysis/export/flat/flat-drawing.js';
import { isUnderneath, nickerOf, nickLength, type Nick } from '../../../../src/analysis/stages/nicks.js';
import type { FlatPattern } from '../../../../src/analysis/fold/flat-pattern.js';
import { flattenContour } from '../../../../src/analysis/geometry/contour.js';
import { distanceToSegment } from '../../../../src/analysis/geometry/polygon.js';
import { distance2, subtract2, unit2 } from '../../../../src/analysis/geometry/vec.js';
import { flatsToCut } from '../../../../src/analysis/stages/flats-to-cut.js';
import { analyseText } from '../../../support/analyse-text.js';

const CHANNEL = `units mm
tub "Channel"
sheet skin = stainless thickness 2  radius 3
strip floor of skin from (0, 200, 60) heading front across right 300 {
    panel back   60 falling 90 deg
    panel bed   100 falling 2 deg
    panel lip    20 falling 40 deg
}
`;
const CLOSED = `${CHANNEL}side left of skin closes floor.left up to 60
seam left floor { weld tig }
`;

const made = (text: string): { readonly flat: FlatPattern; readonly nicks: readonly Nick[] } => {
  const { stages } = analyseText(text);
  const [flat] = stages.flats();
  if (!flat) throw new Error('it has a flat');
  return { flat, nicks: nickerOf(stages)(flat) };
};

describe('nicks of bend lines', () => {
  const { flat, nicks } = made(CHANNEL);

  test('stand at both ends of every bend that is made with its line underneath, and of no other', () => {
    const underneath = flat.bends.flatMap((bend, i) => (isUnderneath(bend) ? [i, i] : []));
    expect(underneath.length).toBeGreaterThan(0);
    expect(underneath.length).toBeLessThan(2 * flat.bends.length);
    expect(nicks.map(({ bend }) => bend)).toEqual(underneath);
  });

  test('begin on the outline and run in along the line', () => {
    const outline = flattenContour(flat.outline, 1e-4);
    for (const { bend, from, to } of nicks) {
      const { start, end } = flat.bends[bend];
      const off = outline.map((p, i) => distanceToSegment(from, p, outline[(i + 1) % outline.length]));
      expect(Math.min(...off)).toBeLessThan(1e-3);
      expect(distanceToSegment(to, start, end)).toBeLessThan(1e-9);
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(nickLength(undefined), 9);
    }
  });

  test('are cut in the drawing, where its words tell of them', () => {
    const { stages } = analyseText(CHANNEL);
    const { entities } = drawFlat(stages.tub, flat, nicks);
    expect(entities.filter(({ kind, layer }) => kind === 'line' && layer === 'CUT_INNER')).toHaveLength(nicks.length);
    const words = entities.flatMap((entity) => (entity.kind === 'text' ? [entity.text] : []));
    expect(words.filter((text) => text.includes('nicked at the edge'))).toHaveLength(nicks.length / 2);
  });

  test('are left out where a seam runs', () => {
    const closed = made(CLOSED);
    for (const bend of new Set(nicks.map((nick) => nick.bend)))
      expect(closed.nicks.filter((nick) => nick.bend === bend)).toHaveLength(1);
  });

  test('are two kerfs long', () => {
    const { stages } = analyseText(
      `${CHANNEL}shop "s" { cutter plasma { bed 1250 by 1250  kerf 1.5  smallest hole 3 } }`,
    );
    expect(nickLength(stages.tub.shop)).toBe(3);
  });
});

test('a bed seen from below has its left on the right when its front is at the bottom', () => {
  const { stages } = analyseText(CHANNEL);
  const bed = stages.flats()[0];
  if (!bed) throw new Error('it has a flat');
  const facing = Object.fromEntries(facingOf(bed).map(({ name, towards }) => [name, towards]));
  const [front, left] = [facing.front ?? facing.up, facing.left];
  // Seen on the dry side of a panel whose wet side looks up or to the front, the two turn to the left.
  expect(front[0] * left[1] - front[1] * left[0]).toBeCloseTo(1, 6);
});

test('the pen draws an arrow to each side of the tub that the first panel lies along, with its letter', () => {
  const { stages } = analyseText(CHANNEL);
  const [flat] = flatsToCut(stages);
  const facing = facingOf(flat);
  const mark = drawFlat(stages.tub, flat).entities.find(
    (entity) => entity.kind === 'lettering' && entity.text === facing.map(({ name }) => name.toUpperCase()).join(' '),
  );
  if (mark?.kind !== 'lettering') throw new Error('it is drawn');
  const [{ x: left }] = [...flat.outline].sort((a, b) => a.x - b.x);
  expect(Math.min(...mark.strokes.flat().map(([x]) => x))).toBeGreaterThan(left);
  const shafts = mark.strokes.filter((stroke) => stroke.length === 2 && distance2(stroke[0], stroke[1]) >= 9);
  expect(shafts.map(([from, to]) => unit2(subtract2(to, from)).map((x) => Math.round(x * 1e6) / 1e6 + 0))).toEqual(
    facing.map(({ towards }) => towards.map((x) => Math.round(x * 1e6) / 1e6 + 0)),
  );
});
