/** The depth to which a liquid rests on level sheet, against published and hand-worked values. */
import { describe, expect, it } from 'vitest';
import { liquidOf, liquidPresets } from '../../src/analysis/water/flow/liquids.js';
import { capillaryLength, restingFilm } from '../../src/analysis/water/flow/resting-film.js';

const water = liquidPresets.water;

describe('a film at rest', () => {
  it('water at 20 deg C has a capillary length of 2.73 mm (handbooks say 2.7; derived from 72.75 mN/m, 998.2 kg/m3)', () => {
    expect(capillaryLength(water)).toBeCloseTo(2.726, 3);
  });

  it('a liquid that does not wet at all stands two capillary lengths deep, one that wets wholly not at all (de Gennes et al., 2004)', () => {
    expect(restingFilm({ ...water, contactAngleDeg: 180 })).toBeCloseTo(2 * capillaryLength(water), 9);
    expect(restingFilm({ ...water, contactAngleDeg: 0 })).toBe(0);
  });

  it('mercury on glass, 485 mN/m, 13 534 kg/m3, 140 deg: 3.6 mm (handbook values and the known 3.6 mm, from memory)', () => {
    expect(restingFilm({ ...water, surfaceTensionMNM: 485, densityKgM3: 13_534, contactAngleDeg: 140 })).toBeCloseTo(
      3.6,
      1,
    );
  });

  it('water on steel that it does not wet well stands 2 to 3 mm deep (common observation)', () => {
    expect(restingFilm(water)).toBeGreaterThan(2);
    expect(restingFilm(water)).toBeLessThan(3);
  });

  it('balances: the weight of a deep edge equals the tension at it, rho g e^2 / 2 = gamma (1 - cos theta)', () => {
    for (const liquid of Object.values(liquidPresets)) {
      const weight = (liquid.densityKgM3 * 9.80665 * (restingFilm(liquid) / 1000) ** 2) / 2;
      const tension = (liquid.surfaceTensionMNM / 1000) * (1 - Math.cos((liquid.contactAngleDeg * Math.PI) / 180));
      expect(weight).toBeCloseTo(tension, 9);
    }
  });
});

describe('every cell of the table, from memory or common practice as its source says', () => {
  it.each([
    ['water', 72.75, 54],
    ['coolant', 38, 30],
    ['oil', 30, 20],
    ['brine', 79, 54],
  ])('%s: %d mN/m, %d deg', (name, tension, angle) => {
    expect(liquidPresets[name]).toMatchObject({ surfaceTensionMNM: tension, contactAngleDeg: angle });
    expect(liquidPresets[name].wettingSource).toMatch(/from memory|no source/);
  });
});

describe('a liquid of a text', () => {
  const stated = { at: 0, viscosityCst: 3, densityKgM3: 900, surfaceTensionMNM: undefined, contactAngleDeg: undefined };

  it('that states nothing rests as thin as oil, the thinnest', () => {
    const thinnest = Math.min(...Object.values(liquidPresets).map(restingFilm));
    expect(restingFilm(liquidOf({ ...stated, name: 'syrup', densityKgM3: 870 }))).toBeCloseTo(thinnest, 9);
  });

  it('rests as it states', () => {
    const own = liquidOf({ ...stated, name: 'syrup', surfaceTensionMNM: 60, contactAngleDeg: 70 });
    expect(own).toMatchObject({ surfaceTensionMNM: 60, contactAngleDeg: 70, wettingSource: 'as stated' });
  });
});
