import { describe, expect, test } from 'vitest';
import { changeOf, NOTHING_DRAWN } from '../../../src/analysis/scene/patch.js';
import { leaningStages, type Leaning } from '../../../src/analysis/scene/leaning.js';
import { sceneOf } from '../../../src/analysis/scene/scene.js';
import type { SceneEntry, SceneItem, View } from '../../../src/analysis/scene/scene-items.js';
import { BASIN, SHOP } from '../../support/tubs/basin-text.js';
import { analyseText } from '../../support/analyse-text.js';

const sceneOfText = (view: View, text = BASIN): readonly SceneEntry[] =>
  sceneOf(view, analyseText(text, { files: { 'shop.tub': SHOP } }).stages);

const itemsOf = <K extends SceneItem['kind']>(
  entries: readonly SceneEntry[],
  kind: K,
): Extract<SceneItem, { kind: K }>[] =>
  entries.flatMap(({ item }) => (item.kind === kind ? [item as Extract<SceneItem, { kind: K }>] : []));

const views: readonly View[] = ['flat', 'folded', 'water', 'bends'];

describe('every view', () => {
  test.each(views)('%s is plain JSON without a number that cannot be drawn, its keys unique', (view) => {
    const entries = sceneOfText(view);
    expect(entries.length).toBeGreaterThan(3);
    expect(new Set(entries.map(({ key }) => key)).size).toBe(entries.length);
    expect(JSON.parse(JSON.stringify(entries))).toEqual(entries.map((entry) => JSON.parse(JSON.stringify(entry))));
    expect(JSON.stringify(entries)).not.toMatch(/null|NaN/);
  });

  test.each(views)('%s of a text without panels says that there is nothing, and why', (view) => {
    const entries = sceneOfText(view, 'units mm\ntub "Nothing yet"\n');
    expect(entries.map(({ item }) => item.kind)).toEqual(['note']);
  });

  test.each(views)('%s is the same for the same text', (view) => {
    expect(sceneOfText(view)).toEqual(sceneOfText(view));
  });
});

describe('flat patterns', () => {
  test('each part has its outline, panels and bends, and says how it lies on the stock', () => {
    const entries = sceneOfText('flat');
    const parts = itemsOf(entries, 'flat-part');
    expect(parts.map(({ name }) => name)).toEqual(['floor', 'leftCheek', 'rightCheek']);
    expect(parts[0].stock).toBe('its box fits on 1220 × 2440 mm');
    expect(itemsOf(entries, 'flat-panel').map(({ name }) => name)).toContain('floor.chute');
    expect(itemsOf(entries, 'flat-bend').map(({ name, direction }) => `${name} ${direction}`)).toContain(
      'floor.shelf floor.chute down',
    );
  });

  test('stock of another thickness is none, as on the nest', () => {
    const text = (thickness: number): string =>
      `units mm\nsheet s = steel thickness 4 radius 4\npoint A = (0, 0, 0) point B = (100, 0, 0) point C = (100, 100, 0)\n` +
      `panel floor of s = A B C\nshop "Yard" { stock steel thickness ${thickness} 1000 by 2000 }\n`;
    const stockAt = (thickness: number): string | undefined =>
      itemsOf(sceneOfText('flat', text(thickness)), 'flat-part')[0].stock;
    expect(stockAt(4.05)).toBe('its box fits on 1000 × 2000 mm');
    expect(stockAt(4.15)).toBeUndefined();
  });

  test('the box of a part holds its outline', () => {
    for (const { outline, box } of itemsOf(sceneOfText('flat'), 'flat-part')) {
      expect(Math.min(...outline.map(([x]) => x))).toBeGreaterThanOrEqual(box[0]);
      expect(Math.max(...outline.map(([, y]) => y))).toBeLessThanOrEqual(box[3]);
    }
  });
});

describe('the water', () => {
  // A dished floor: two panels that fall towards each other, closed by two sides, no way out but over the rims.
  const DISH = `units mm
tub "Dish"
sheet skin = stainless 18 ga radius 1.2
strip floor of skin from (0, 400, 100) heading front across right 300 {
    panel back 100 falling 90 deg
    panel far 200 falling 3 deg
    panel near 200 rising 3 deg
    panel front to z 100 rising 90 deg
}
side leftCheek of skin closes floor.left up to 100
side rightCheek of skin closes floor.right up to 100
`;

  test('the plugged level stands at the lowest rim, and its surface covers the tub in plan', () => {
    const [level] = itemsOf(sceneOfText('water', DISH), 'water-level');
    expect(level.level_mm).toBeCloseTo(100, 3);
    // In plan 300 mm by two panels of 200 mm at 3 deg.
    expect(areaInPlan(level.surface)).toBeCloseTo(300 * 400 * Math.cos(Math.PI / 60), 0);
  });

  test('the pool in the dish is drawn to its own area', () => {
    const pools = itemsOf(sceneOfText('water', DISH), 'water-pool');
    for (const { surface, told } of pools) {
      const [, area] = told.facts.join('; ').match(/Area (\d+) mm2/) ?? [];
      expect(Math.abs(areaInPlan(surface) - Number(area))).toBeLessThan(1);
    }
    expect(pools.length).toBe(1);
  });

  test('every face tells which way it falls and how much, upright ones too', () => {
    const faces = itemsOf(sceneOfText('water'), 'water-face');
    expect(faces.length).toBeGreaterThan(4);
    for (const { slope_deg, told } of faces) {
      expect(told.facts[0]).toMatch(/^(level|straight down|down to the )/);
      expect(told.facts[1]).toBe(`Fall ${slope_deg.toFixed(2)} deg`);
    }
  });

  test('lines of an inflow run downhill all the way and end at the outlet', () => {
    const entries = sceneOfText('water', `${BASIN}inflow 20 L/min on shelf\n`);
    const [outlet] = itemsOf(entries, 'water-spot').filter(({ spot }) => spot === 'outlet');
    const flows = itemsOf(entries, 'water-flow');
    expect(flows.length).toBe(5);
    for (const { points } of flows) {
      for (let i = 1; i < points.length; i++) expect(points[i][2]).toBeLessThanOrEqual(points[i - 1][2] + 1e-6);
    }
    const ends = flows.map(({ points }) => points[points.length - 1]);
    const reaching = ends.filter((end) => Math.hypot(end[0] - outlet.point[0], end[1] - outlet.point[1]) <= 27);
    expect(reaching.length).toBeGreaterThan(0);
  });

  test('what is not known is said', () => {
    const notes = itemsOf(sceneOfText('water', BASIN), 'note').map(({ text }) => text);
    expect(notes).toContain('No inflow is stated, so no flow is drawn; arrows show the fall of each panel');
  });

  const areaInPlan = (surface: readonly (readonly (readonly [number, number, number])[])[]): number =>
    surface.reduce((sum, piece) => {
      const twice = piece.reduce(
        (s, a, i) => s + a[0] * piece[(i + 1) % piece.length][1] - piece[(i + 1) % piece.length][0] * a[1],
        0,
      );
      return sum + Math.abs(twice) / 2;
    }, 0);
});

describe('patches', () => {
  const from = sceneOfText('flat');
  const drawn = changeOf(NOTHING_DRAWN, from).after;

  test('the same scene again sends nothing', () => {
    expect(changeOf(drawn, from).change).toEqual({ set: {}, remove: [] });
  });

  test('a comment or a blank line, which moves everything in the text, sends nothing', () => {
    expect(changeOf(drawn, sceneOfText('flat', `// moved\n\n${BASIN}`)).change).toEqual({ set: {}, remove: [] });
  });

  test('a change of one part sends that part only', () => {
    const { change } = changeOf(
      drawn,
      sceneOfText(
        'flat',
        BASIN.replace('(0, 90, 8)     point', '(0, 95, 8)     point').replace('A + (0, 90, 8)', 'A + (0, 95, 8)'),
      ),
    );
    expect(Object.keys(change.set)).toContain('part:floor');
    expect(Object.keys(change.set)).not.toContain('part:leftCheek');
    expect(change.remove).toEqual([]);
  });

  test('what is gone is taken away', () => {
    const { change } = changeOf(drawn, sceneOfText('flat', BASIN.replace('bend apron back  radius 2', '')));
    expect(change.remove).toContain('bend:apron floor.back');
    expect(Object.keys(change.set)).toContain('part:apron');
  });
});

describe('a plugged tub that is filled', () => {
  test('gains at every step what lies between its two surfaces, and ends under the full level', () => {
    const entries = sceneOfText('water');
    const [fill] = itemsOf(entries, 'water-fill');
    const [full] = itemsOf(entries, 'water-level');
    const steps = [...fill.steps, full];
    expect(steps.length).toBeGreaterThan(10);
    // mm2 by the corners of the drawn pieces.
    const areaOf = (surface: readonly (readonly (readonly number[])[])[]): number =>
      surface.reduce((sum, piece) => {
        const twice = piece.reduce((s, [x, y], i) => {
          const [nx, ny] = piece[(i + 1) % piece.length];
          return s + x * ny - nx * y;
        }, 0);
        return sum + Math.abs(twice) / 2;
      }, 0);
    steps.slice(1).forEach((step, i) => {
      const before = steps[i];
      const rise = step.level_mm - before.level_mm;
      const areas = [areaOf(before.surface), areaOf(step.surface)];
      const gained = (step.volume_L - before.volume_L) * 1e6;
      expect(gained).toBeGreaterThan(Math.min(...areas) * rise * 0.98);
      expect(gained).toBeLessThan(Math.max(...areas) * rise * 1.02);
      for (const [, , z] of step.surface.flat()) expect(z).toBeCloseTo(step.level_mm, 6);
    });
  });
});

describe('what joins the folded tub, goes through it and stands around it', () => {
  const AROUND = `${BASIN}
tank barrel 60 L  working 40 L  under drain  from (100, 0, -700) to (500, 400, -200)
keepout store from (-300, 0, 0) to (-100, 400, 300)
dry pump from (-300, 500, 0) to (-100, 600, 300)
`;

  test('each seam is drawn along what it closes, and told with what closes it', () => {
    const seams = itemsOf(sceneOfText('folded'), 'seam');
    expect(seams.map(({ name }) => name)).toEqual(['leftCheek floor', 'rightCheek floor']);
    for (const { closedBy, isClosed, runs, told } of seams) {
      expect(isClosed).toBe(true);
      expect(runs.length).toBeGreaterThan(0);
      expect(told.facts.join('; ')).toContain(closedBy);
    }
  });

  test('an opening lies in its panel, as large as it is written', () => {
    const [drain] = itemsOf(sceneOfText('folded'), 'opening').filter(({ name }) => name === 'drain');
    expect(drain.told.what).toBe('Outlet drain');
    const across = Math.max(
      ...drain.ring.flatMap((a) => drain.ring.map((b) => Math.hypot(...a.map((v, i) => v - b[i])))),
    );
    expect(drain.told.facts).toContain(`diameter ${Math.round(across)} mm`);
  });

  test('tanks and zones are drawn where they are stated', () => {
    const boxes = itemsOf(sceneOfText('folded', AROUND), 'box');
    expect(boxes.map(({ name, room }) => [name, room])).toEqual([
      ['barrel', 'tank'],
      ['pump', 'dry'],
      ['store', 'clear'],
    ]);
  });
});

describe('water in a tub that is set up off level', () => {
  const stages = analyseText(BASIN, { files: { 'shop.tub': SHOP } }).stages;
  const shelfOf = (leaning: Leaning): number =>
    itemsOf(sceneOf('water', leaningStages(stages, leaning)), 'water-face').find(({ name }) => name === 'floor.shelf')!
      .slope_deg;

  test('a side that is low adds its angle to the fall towards it, and takes it from the fall away from it', () => {
    const level = shelfOf({ side: 'front', low_deg: 0 });
    expect(shelfOf({ side: 'front', low_deg: 0.3 })).toBeCloseTo(level + 0.3, 2);
    expect(shelfOf({ side: 'back', low_deg: 0.3 })).toBeCloseTo(level - 0.3, 2);
  });

  test('it goes no farther than the text allows', () => {
    expect(shelfOf({ side: 'back', low_deg: 7 })).toBe(shelfOf({ side: 'back', low_deg: 0.5 }));
  });

  test('depths are those of the sheet under each corner of the surface', () => {
    const [level] = itemsOf(sceneOf('water', stages), 'water-level');
    const lowest = Math.min(
      ...itemsOf(sceneOf('water', stages), 'water-face').flatMap(({ corners }) => corners.map(([, , z]) => z)),
    );
    expect(Math.max(...level.depths.flat())).toBeCloseTo(level.level_mm - lowest, 2);
    expect(level.depths.map((each) => each.length)).toEqual(level.surface.map((each) => each.length));
  });
});
