/** Water at edges that are turned back, against closed forms and against the metal as it is folded. */
import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import { meshOf } from '../../../src/analysis/solid/boundary/mesh.js';
import { analyseText } from '../../support/analyse-text.js';

const THICK = 1.27;
const WIDE = 300;
const BASE = 200;
const WALL = 60;

/** A trough, level across, whose front wall leans; its back and sides are higher. */
const trough = (rise: number, hem: string): string => `units mm
tub "trough"
sheet skin = stainless 18 ga radius 1.2
strip floor of skin from (0, ${BASE}, 100) heading front across right ${WIDE} {
    panel back 100 falling 90 deg
    panel base ${BASE} falling 0 deg
    panel front ${WALL} rising ${rise} deg
}
side left of skin closes floor.left up to 100
side right of skin closes floor.right up to 100
seam left floor { weld tig }
seam right floor { weld tig }
rim floor.end hem ${hem}
`;

const only = (text: string) => {
  const { stages, findings } = analyseText(text, { rules: [] });
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  const chambers = stages.water().chambers();
  expect(chambers).toHaveLength(1);
  return { stages, ...chambers[0] };
};

/** The metal of all parts, cut square to the trough at x: pairs of places [y, z]. */
const sectionAt = (stages: ReturnType<typeof only>['stages'], x: number): (readonly [Vec3, Vec3])[] =>
  stages.folded().flatMap((part) => {
    if (!part) return [];
    const { positions, triangles } = meshOf(part, 0.005);
    return triangles.flatMap((corners): readonly (readonly [Vec3, Vec3])[] => {
      const found = corners.flatMap((corner, i): Vec3[] => {
        const [a, b] = [positions[corner], positions[corners[(i + 1) % 3]]];
        if (a[0] < x === b[0] < x) return [];
        const share = (x - a[0]) / (b[0] - a[0]);
        return [[x, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share]];
      });
      return found.length === 2 ? [[found[0], found[1]]] : [];
    });
  });

/** Of the section: how far the liquid reaches to the front at a height, and the highest metal of the front wall. */
const frontOf = (section: ReturnType<typeof sectionAt>) => {
  const front = section.filter(([p, q]) => Math.min(p[1], q[1]) < BASE / 2);
  const reach = (z: number): number | undefined => {
    const hits = front.flatMap(([p, q]) =>
      p[2] < z === q[2] < z ? [] : [p[1] + ((q[1] - p[1]) * (z - p[2])) / (q[2] - p[2])],
    );
    return hits.length === 0 ? undefined : BASE / 2 - Math.max(...hits.filter((y) => y < BASE / 2));
  };
  const top = Math.max(...front.flat().flatMap(([, y, z]) => (y < BASE / 2 ? [z] : [])));
  return { reach, top };
};

describe('the round of a hem', () => {
  const hems = ['closed 12', 'open 12 gap 4', 'open 16 gap 8', 'closed 12 turned wet', 'open 14 gap 6 turned wet'];
  const cases = [30, 62, 90, 105].flatMap((rise) => hems.map((hem) => [rise, hem] as const));

  test.each(cases)('of a wall that rises %d deg, hem %s, is where the folded metal has it', (rise, hem) => {
    const { stages, level, volume } = only(trough(rise, hem));
    const { reach, top } = frontOf(sectionAt(stages, 0.4 * WIDE));
    expect(level).toBeCloseTo(top, 2);
    // What is under the lip of one within counts as full: such a section sees it.
    if (hem.includes('wet') && (hem.includes('gap') || rise > 90)) return;
    const steps = 2500;
    let [area, last] = [0, 0];
    for (let i = 0; i < steps; i++) {
      // Above the chords of the mesh there is no metal: the round is level there.
      last = reach(((i + 0.5) * level) / steps) ?? last;
      area += ((last + BASE / 2) * level) / steps;
    }
    // The hollow bend below, sharp in the liquid, holds less in metal.
    const hollow = 1.2 ** 2 * (Math.tan((rise * Math.PI) / 360) - (rise * Math.PI) / 360);
    expect(Math.abs(volume / WIDE - hollow - area)).toBeLessThan(0.05);
  });

  test('of an upright wall leaves room for what is cut off of its corner, and a lip within takes its own', () => {
    const round = (1 - Math.PI / 4) * (2 + THICK) ** 2;
    const dry = only(trough(90, 'open 12 gap 4'));
    expect(dry.level).toBeCloseTo(WALL, 9);
    expect(dry.volume / WIDE).toBeCloseTo(WALL * BASE + round, 6);
    const wet = only(trough(90, 'open 12 gap 4 turned wet'));
    expect(wet.level).toBeCloseTo(WALL, 9);
    expect(wet.volume / WIDE).toBeCloseTo(WALL * BASE - 12 * (4 + THICK) + round, 6);
  });
});

/** An upright pan on four flanges, all hemmed. */
const pan = (hems: readonly string[]): string => `units mm
tub "pan"
sheet skin = stainless 18 ga radius 1.2
point A = (0, 0, 0)  point B = (300, 0, 0)  point C = (300, 200, 0)  point D = (0, 200, 0)
panel base of skin = A B C D
flange front on base[A B] turned up 90 deg by 50
flange right on base[B C] turned up 90 deg by 50
flange back on base[C D] turned up 90 deg by 50
flange left on base[D A] turned up 90 deg by 50
seam front right { weld tig }
seam right back { weld tig }
seam back left { weld tig }
seam left front { weld tig }
${['front', 'right', 'back', 'left'].map((wall, i) => `rim ${wall}.end hem ${hems[i]}`).join('\n')}
`;

/** How far a hem on an upright wall of 50 stands in, at a height. */
const standsIn = (hem: string, z: number): number => {
  const [, length, gap] = /(\d+)(?: gap (\d+))?/.exec(hem)!.map(Number);
  const inside = gap > 0 ? gap / 2 : 0;
  const radius = inside + THICK;
  const low = 50 - radius;
  const out = z <= low ? radius : Math.sqrt(Math.max(0, radius ** 2 - (z - low) ** 2));
  if (!hem.includes('wet')) return out - radius;
  return z < 50 - length ? 0 : inside + out;
};

describe('hems around a pan', () => {
  test.each([
    [['closed 12', 'closed 12', 'closed 12', 'closed 12']],
    [['open 10 gap 5', 'open 10 gap 5', 'open 10 gap 5', 'open 10 gap 5']],
    [['closed 12 turned wet', 'closed 12 turned wet', 'closed 12 turned wet', 'closed 12 turned wet']],
    [['closed 12', 'open 10 gap 4', 'closed 8 turned wet', 'open 15 gap 3 turned wet']],
  ])('%j hold what is between them up to the rim', (hems) => {
    const { level, volume } = only(pan(hems));
    expect(level).toBeCloseTo(50, 9);
    const steps = 20000;
    let room = 0;
    for (let i = 0; i < steps; i++) {
      const [front, right, back, left] = hems.map((hem) => standsIn(hem, ((i + 0.5) * 50) / steps));
      room += ((300 - left - right) * (200 - front - back) * 50) / steps;
    }
    // Hems that differ close their corners by their mitre, at most 20 mm2 wide and 15 mm high.
    const off = new Set(hems).size > 1 ? 4 * 20 * 15 : 5;
    expect(Math.abs(volume - room)).toBeLessThan(off);
    expect(volume).not.toBeCloseTo(300 * 200 * 50, -2);
  });
});

test('a rim that slopes lets the water by over the lowest place of its round', () => {
  const { stages, level } = only(`units mm
tub "sloping"
sheet skin = stainless 18 ga radius 1.2
point A = (0, 0, 0)  point B = (300, 0, 0)  point C = (300, 200, 0)  point D = (0, 200, 0)
point E = (0, -30, 50)  point F = (300, -40, 66.6667)
panel base of skin = A B C D
panel front of skin = A B F E
panel back of skin = C D (0, 200, 100) (300, 200, 100)
panel left of skin = D A E (0, 200, 100)
panel right of skin = B C (300, 200, 100) F
bend base front  bend base back
seam left base { weld tig }  seam left front { weld tig }  seam left back { weld tig }
seam right base { weld tig }  seam right front { weld tig }  seam right back { weld tig }
rim front[F E] hem open 14 gap 8
`);
  const { top } = frontOf(sectionAt(stages, 12));
  const slope = 16.6667 / 300;
  expect(level).toBeGreaterThan(top - slope * 13);
  expect(level).toBeLessThan(top - slope * 11 + 0.01);
  expect(level).toBeLessThan(49);
});
