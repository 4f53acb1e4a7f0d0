import { EmptyFileSystem, URI } from 'langium';
import { describe, expect, test } from 'vitest';
import { distance } from '../../src/analysis/geometry/vec.js';
import { thicknessOfGauge } from '../../src/analysis/material/gauges.js';
import type { Tub } from '../../src/analysis/model/tub.js';
import { analyseNow } from '../../src/language/analyse.js';
import { openTexts } from '../../src/language/workspace/open-texts.js';
import { createTubServices } from '../../src/language/tub-module.js';
import { analyseText } from '../support/analyse-text.js';

const degrees = (angle: number): number => (angle * Math.PI) / 180;

const tubOf = (text: string): Tub => {
  const { tub, findings } = analyseText(text, { rules: [] });
  expect(findings.filter(({ code }) => code !== 'accept/unused')).toEqual([]);
  return tub;
};

const BASIN = `units mm
tub "Bottle-rinse basin"
let inside = 460
let rim = 250 free 120 to 300 by 5
sheet skin = stainless 18 ga  radius 1.2
sheet trial = galvanized 20 ga  tensile 480  radius 1.5  k 0.4 within 0.02 from 5 legs  springback 0.9 deg in 8 die within 0.2 deg from 3 bends  springback 0.5 deg  coupon { flat 100  legs 51.4 51.5  at 90 deg }  grain across bends
level within 0.5 deg
strip floor of skin from (0, 640, rim) heading front across right inside {
    panel back    60   falling 90 deg
    panel shelf  310   falling 3 deg  radius 2  k 0.4
    panel sump   110   level
    panel front  to z rim  rising 80 deg
}
side leftCheek of skin closes floor.left up to rim
side rightCheek of skin closes floor.right up to rim
point A = (0, 640, rim)      point B = (inside, 640, rim)
point C = B + (0, 90, 8)     point D = A + (0, 90, 8)
panel apron of skin = A B C D
bend apron back  radius 2
flange drip on apron[C D]  turned down 90 deg  by 20  trim 2 3
rim drip.end  hem closed 8
rim front.end  hem open 10 gap 3 turned wet
seam leftCheek floor  { tabs loose 18 wide 14 deep every 70 inset 0.8 margin 20  spots 1  weld tig  gap at most 0.5  clamp at most 60 N }
seam rightCheek floor { lap 12  tabs on floor 18 wide 14 deep every 70  sealant 3  rivets 3.2 every 40 drilled on assembly  solder }
outlet drain in sump at center(sump) diameter 52 { lip 15  raised 2  shut in use  pipe bore 40 long 900 to (230, 200, -300)  strainer mesh 80 wire 0.1 aperture 0.2 size 180 by 80 blocked 50 % passage 3 bolted M5 sealed }
outlet brim notch in back from (100, 0, 300) to (200, 0, 300) { overflow }
outlet gauge vee in back at (300, 0, 300) 90 deg deep 40 { overflow }
outlet mouth spout over apron[A B] { overflow }
hole in apron from toward(D, C, 30) to toward(C, D, 30) count 6  rivetnut M6 sealed
hole vent in apron at center(apron) diameter 5
cutout window in front from (100, 0, 190) to (360, 0, 230)
slot in back at toward(A, B, 60) 20 by 6.6 upright
liquid coolant 1.2 cSt 1000 kg/m3 tension 36 mN/m contact 25 deg
inflow 30 L/min on shelf at center(shelf) falls 250 carrying chips 3.6 L/h
inflow spray pumped from catch at (200, 200, -280) on shelf at center(shelf) falls 60 { curve 0 L/min at 3.2 m 20 L/min at 1.4 m  hose bore 12 long 1.8 m bends 3  covered 25 }
path shelf sump drain at least 2 deg
tank catch 60 L working 40 L under drain from (0, 0, -300) to (400, 400, -100)
week { run 6 hours for 5 days  cleaned every 2 days  topped up every 1 day  splash 0.5 L/h  evaporates 0.2 L/h  margin 20 }
dry pump from (300, 820, 60) to (150, 700, -200)
keepout stand from (-5, 0, -400) to (465, 640, 20)
pin floor on 1220 by 2440 sheet 2 at (35, 20) turned 90 deg
pin apron on 1220 by 2440 at (15, 600)
marks on dry side
made floor standing on shelf { bend back shelf reads 86.5 deg bent to 88 deg in 8 die  bend sump shelf opens 177 deg  panel shelf measures 309.6 over outside  panel sump measures 110 over inside  panel front stands 79 deg  may correct  cut with k 0.43  gauge within 0.2 deg  tape within 0.4 }
made leftCheek { }
point Q = (1000, 0, 0)  point R = (1600, 0, 0)  point S near (1590, 410, 5)  point T near (1010, 380, 0)
taped { 400 from R to S  400 from Q to T  721.2 from Q to S  721.1 from R to T  600.1 from T to S  level Q to S  level Q to T  within 0.8 }
taped { plumb Q to U  300 from Q to U }  point U near (1000, 5, -290)
marks on wet side of floor apron
accept drain/pool on shelf because "wiped down by hand"
accept drain/pool on sump up to 1 mm because "wiped down by hand"
accept seal/open-corner on leftCheek floor because "filled"
accept make/default-shop because "no shop yet"
aim { least let rim  most capacity  capacity at least 12 L  slope of shelf at least 2 deg  mass at most 12 kg  bow at most 2 mm  fits on stock  no warnings }
variant "wide" { let inside = 600 }
`;

describe('every statement comes to the model', () => {
  const tub = tubOf(BASIN);

  test('sheets, with what was measured on them', () => {
    expect(tub.sheets[0]).toMatchObject({
      name: 'skin',
      material: 'stainless',
      gauge: 18,
      radius: 1.2,
      thickness: thicknessOfGauge('stainless', 18),
      kFactor: undefined,
      grain: 'any',
    });
    expect(tub.sheets[1]).toMatchObject({
      name: 'trial',
      tensileMPa: 480,
      kFactor: 0.4,
      grain: 'across bends',
      kWorth: { within: 0.02, count: 5 },
      springbacks: [
        { angle: degrees(0.9), die: 8, within: degrees(0.2), count: 3 },
        { angle: degrees(0.5), die: undefined, within: undefined, count: undefined },
      ],
      coupon: { flat: 100, legs: [51.4, 51.5], angle: Math.PI / 2 },
    });
  });

  test('a grade of metal, however it is spaced', () => {
    const gradeOf = (words: string): string | undefined => tubOf(`sheet s = ${words} radius 1 mm\n`).sheets[0].grade;
    expect(['aluminium 6061-T6 18 ga', 'aluminium 6061 - t6 18 ga', 'stainless 304L 18 ga'].map(gradeOf)).toEqual([
      '6061-T6',
      '6061-T6',
      '304L',
    ]);
    expect([gradeOf('steel DC04 18 ga'), gradeOf('galvanized DX52D thickness 1 mm')]).toEqual(['DC04', 'DX52D']);
    expect(gradeOf('stainless 18 ga')).toBeUndefined();
    // A name stays a name elsewhere.
    expect(tubOf('units mm\nlet S235 = 4\nlet a = S235 + 1\n').sheets).toEqual([]);
  });

  test('panels, each with its kind, its names and its place', () => {
    expect(tub.panels.map(({ name, kind }) => [name, kind.kind])).toEqual([
      ['floor.back', 'leg'],
      ['floor.shelf', 'leg'],
      ['floor.sump', 'leg'],
      ['floor.front', 'leg'],
      ['leftCheek', 'side'],
      ['rightCheek', 'side'],
      ['apron', 'points'],
      ['drip', 'flange'],
    ]);
    const [back, shelf, , front, left, , apron, drip] = tub.panels;
    expect(back.corners[0]).toEqual([0, 640, 250]);
    expect(distance(shelf.corners[0], shelf.corners[3])).toBeCloseTo(310, 9);
    expect(front.corners[2][2]).toBeCloseTo(250, 9);
    expect(left.kind).toEqual({ kind: 'side', strip: 0, end: 'left' });
    expect(left.edgeNames).toEqual({ top: 4 });
    expect(apron.cornerNames).toEqual(['A', 'B', 'C', 'D']);
    expect(drip.kind).toMatchObject({ kind: 'flange', parent: { panel: 6, edge: 2 } });
    expect(distance(drip.corners[0], drip.corners[1])).toBeCloseTo(455, 9);
    expect(tub.strips[0]).toMatchObject({
      name: 'floor',
      panels: [0, 1, 2, 3],
      heading: [0, -1, 0],
      across: [1, 0, 0],
      width: 460,
    });
  });

  test('bends of strips, flanges and statements, with the radius and K stated on them', () => {
    expect(tub.bends.map(({ name, origin, radius, kFactor }) => [name, origin, radius, kFactor])).toEqual([
      ['floor.back floor.shelf', 'strip', 2, 0.4],
      ['floor.shelf floor.sump', 'strip', undefined, undefined],
      ['floor.sump floor.front', 'strip', undefined, undefined],
      ['apron floor.back', 'statement', 2, undefined],
      ['apron drip', 'flange', undefined, undefined],
    ]);
  });

  test('seams and rims', () => {
    expect(tub.seams[0]).toMatchObject({
      name: 'leftCheek floor',
      style: { kind: 'corner' },
      weld: 'tig',
      spots: 1,
      gapAtMost: 0.5,
      clampAtMostN: 60,
      solder: false,
      sealant: undefined,
      tabs: { on: 'loose', wide: 18, deep: 14, every: 70, inset: 0.8, margin: 20 },
      members: [
        { name: 'leftCheek', panels: [4] },
        { name: 'floor', panels: [0, 1, 2, 3] },
      ],
    });
    expect(tub.seams[1]).toMatchObject({
      style: { kind: 'lap', by: 12, lapping: 0 },
      sealant: 3,
      fasteners: { kind: 'rivet', every: 40, size: 3.2, headsOn: undefined, nutsIn: undefined, drilled: true },
      solder: true,
      tabs: { on: 1, inset: 0, margin: undefined },
    });
    expect(tub.rims.map(({ edge, hem }) => [edge.panel, edge.edge, hem])).toEqual([
      [7, 2, { kind: 'closed', length: 8, gap: 0, turned: 'dry' }],
      [3, 2, { kind: 'open', length: 10, gap: 3, turned: 'wet' }],
    ]);
  });

  test('which of two lies under in a lap', () => {
    const sheets = `units mm
sheet skin = stainless 18 ga radius 1.2
panel base of skin = (0, 0, 0) (200, 0, 0) (200, 150, 0) (0, 150, 0)
panel wall of skin = (0, 150, 0) (200, 150, 0) (200, 150, 80) (0, 150, 80)
`;
    const { seams } = tubOf(`${sheets}seam wall base { lap 20 on wall  sealant 3 }`);
    expect(seams[0].style).toEqual({ kind: 'lap', by: 20, lapping: 1 });
  });

  test('screws of a seam', () => {
    const sheets = `units mm
sheet skin = stainless 18 ga radius 1.2
panel base of skin = (0, 0, 0) (200, 0, 0) (200, 150, 0) (0, 150, 0)
panel more of skin = (0, 0, 0) (200, 0, 0) (200, -150, 0) (0, -150, 0)
`;
    const { seams } = tubOf(
      `${sheets}seam base more { lap 24  bolted M6 every 80 heads on more rivetnut in base  weld tig }`,
    );
    expect(seams[0].fasteners).toMatchObject({
      kind: 'screw',
      size: 6,
      every: 80,
      headsOn: 1,
      nutsIn: 0,
      drilled: false,
    });
  });

  test('faces that are bolted together', () => {
    const sheets = `units mm
sheet skin = stainless 18 ga radius 1.2
existing bench { panel board of skin metal up = (-50, -50, 100) (250, -50, 100) (250, 150, 100) (-50, 150, 100) }
panel rail of skin = (0, 0, 97.9) (200, 0, 97.9) (200, 30, 97.9) (0, 30, 97.9)
`;
    const { seams, faceJoints } = tubOf(`${sheets}seam rail bench.board { bolted M6 every 50 gasket 3 pressed 30 % }`);
    expect(seams).toEqual([]);
    expect(faceJoints).toMatchObject([
      { name: 'rail bench.board', gasket: 3, pressed: 0.3, fasteners: { size: 6, every: 50, headsOn: undefined } },
    ]);
    const several = tubOf(
      `${sheets}panel other of skin = (0, 60, 97) (200, 60, 97) (200, 90, 97) (0, 90, 97)
seam rail other bench.board { bolted M6 every 50 rivetnut hex in other }
existing rest { sheet bar = steel thickness 2 }`,
    );
    expect(several.faceJoints).toMatchObject([
      { name: 'rail bench.board', fasteners: { nutsIn: 0 } },
      { name: 'other bench.board', fasteners: { nutsIn: 0, headsOn: 1, hexNuts: true } },
    ]);
  });

  test('a thing of another file', () => {
    const files = {
      'block.stl':
        'solid b\nfacet normal 0 0 1 outer loop vertex 0 0 0 vertex 2 0 0 vertex 0 1 0 endloop endfacet\nendsolid b',
    };
    const text = 'units mm\nexisting block from "block.stl" in cm at (5, 0, 0) turned 90 deg about z';
    const { tub } = analyseText(text, { files, rules: [] });
    expect(tub.groups).toMatchObject([{ name: 'block', role: 'existing' }]);
    const [x, y, z] = tub.things![0].mesh.positions[1];
    expect([x, y, z].map((value) => Number(value.toFixed(9)))).toEqual([5, 20, 0]);
    const { findings } = analyseText(`${text}\npath block.deck`, { files, rules: [] });
    expect(findings.map(({ message }) => message).join()).toContain('a thing of such a file is one piece');
  });

  test('outlets, holes, cutouts and slots', () => {
    expect(tub.outlets[0]).toMatchObject({
      name: 'drain',
      panel: 2,
      diameter: 52,
      lip: 15,
      raised: 2,
      shut: true,
      pipe: { bore: 40, length: 900, to: [230, 200, -300] },
      opening: 0,
      strainer: {
        meshPerInch: 80,
        wire: 0.1,
        aperture: 0.2,
        size: [180, 80],
        blocked: 0.5,
        passage: 3,
        bolted: { kind: 'screw', thread: 5, sealed: true },
      },
    });
    const grated = tubOf(
      BASIN.replace('mesh 80 wire 0.1 aperture 0.2 size', 'holes 3 pitch 5 size').replace(
        /(cutout window .*)/,
        '$1 { strainer bars 2 apart 6 blocked 10 % }',
      ),
    );
    expect(grated.outlets[0].strainer).toMatchObject({ plate: { hole: 3, pitch: 5 }, size: [180, 80] });
    expect(grated.openings.flatMap(({ strainer }) => strainer ?? [])).toMatchObject([
      { bars: { bar: 2, gap: 6 }, size: [260, 40], blocked: 0.1 },
    ]);
    expect(tub.openings.map(({ name, use }) => [name, use])).toEqual([
      ['drain', 'outlet'],
      ['brim', 'outlet'],
      ['gauge', 'outlet'],
      ...[1, 2, 3, 4, 5, 6].map((i) => [`apron.hole.${i}`, 'hole']),
      ['vent', 'hole'],
      ['window', 'cutout'],
      ['floor.back.slot', 'slot'],
    ]);
    expect(tub.outlets.slice(1, 3)).toMatchObject([
      { center: [150, 0, 300], diameter: 0, weir: { kind: 'notch', width: 100 }, overflow: true, opening: 1 },
      { center: [300, 0, 300], diameter: 0, weir: { kind: 'vee', angle: degrees(90) }, overflow: true, opening: 2 },
    ]);
    expect(tub.outlets[3]).toMatchObject({
      name: 'mouth',
      center: [230, 640, 250],
      spout: { length: 460 },
      overflow: true,
    });
    expect(tub.outlets[3].opening).toBeUndefined();
    expect(tub.openings[2].shape).toEqual({ kind: 'vee', tip: [300, 0, 300], angle: degrees(90), deep: 40 });
    const centers = tub.openings.slice(3, 9).map(({ shape }) => (shape.kind === 'round' ? shape.center[0] : NaN));
    expect(centers).toEqual([30, 110, 190, 270, 350, 430]);
    expect(tub.openings[3]).toMatchObject({ fastener: { kind: 'rivetnut', thread: 6, sealed: true } });
    expect(tub.openings[11].shape).toEqual({
      kind: 'slot',
      center: [60, 640, 250],
      along: 'upright',
      length: 20,
      width: 6.6,
    });
  });

  test('the water and what is around the tub', () => {
    expect(tub.level?.within).toBeCloseTo(degrees(0.5), 12);
    expect(tub.liquid).toMatchObject({ name: 'coolant', viscosityCst: 1.2, densityKgM3: 1000 });
    expect(tub.liquid?.surfaceTensionMNM).toBeCloseTo(36, 9);
    expect(tub.liquid?.contactAngleDeg).toBeCloseTo(25, 9);
    expect(tub.week).toMatchObject({
      hoursPerDay: 6,
      days: 5,
      cleanedEvery: 2,
      toppedUpEvery: 1,
      splashMm3S: 0.5e6 / 3600,
      evaporatesMm3S: 0.2e6 / 3600,
      margin: 20,
    });
    expect(tub.week?.air).toBeUndefined();
    const airy = BASIN.replace('evaporates 0.2 L/h', 'evaporates at 22 celsius humidity 45 % wind 6 m/min');
    expect(tubOf(airy).week?.air).toEqual({ celsius: 22, humidity: expect.closeTo(0.45, 12) as number, windMmS: 100 });
    const [spray] = [tub.inflows[1]];
    expect((spray.pump?.outlet[2] ?? 0) - (spray.point?.[2] ?? 0)).toBeCloseTo(60, 9);
    expect(spray).toMatchObject({
      name: 'spray',
      fall: 60,
      pump: {
        tank: 0,
        inlet: [200, 200, -280],
        curve: [
          { rateMm3S: 0, head: 3200 },
          { rateMm3S: 1e6 / 3, head: 1400 },
        ],
        hose: { bore: 12, length: 1800, bends: 3 },
        covered: 25,
      },
    });
    expect(tub.inflows[0]).toMatchObject({
      name: 'inflow on floor.shelf',
      panel: 1,
      fall: 250,
      rateMm3S: 500_000,
      solids: { kind: 'chips', rateMm3S: 1000 },
    });
    expect(tub.paths[0].stops.map(({ name, kind }) => [name, kind])).toEqual([
      ['floor.shelf', 'panel'],
      ['floor.sump', 'panel'],
      ['drain', 'outlet'],
    ]);
    expect(tub.tanks[0]).toMatchObject({
      name: 'catch',
      capacityMm3: 60e6,
      workingMm3: 40e6,
      under: [0],
      box: { min: [0, 0, -300], max: [400, 400, -100] },
    });
    expect(tub.dryZones[0]).toMatchObject({ name: 'pump', box: { min: [150, 700, -200], max: [300, 820, 60] } });
    expect(tub.keepouts).toHaveLength(1);
    expect(tub.pins).toMatchObject([
      { panel: 0, stock: [1220, 2440], sheet: 2, corner: [35, 20], turn: degrees(90) },
      { stock: [1220, 2440], sheet: 1, corner: [15, 600], turn: 0 },
    ]);
  });

  test('sides that are marked', () => {
    const apron = tub.panels.findIndex(({ name }) => name === 'apron');
    expect(tub.marks).toMatchObject([
      { side: 'dry', panels: [] },
      { side: 'wet', panels: [0, apron] },
    ]);
  });

  test('what is made, and what was read of it', () => {
    const [floor, cheek] = tub.made ?? [];
    expect(floor).toMatchObject({
      name: 'floor',
      panel: 0,
      standingOn: 1,
      bends: [
        { panels: [0, 1], isOpening: false, die: 8 },
        { panels: [1, 2], isOpening: true, bentTo: undefined },
      ],
      lengths: [
        { panel: 1, length: 309.6, over: 'outside' },
        { panel: 2, length: 110, over: 'inside' },
      ],
      slopes: [{ panel: 3 }],
      mayCorrect: true,
      cutK: 0.43,
      tapeWithin: 0.4,
    });
    expect(floor.bends[0].turn).toBeCloseTo(degrees(86.5), 12);
    expect(floor.bends[0].bentTo).toBeCloseTo(degrees(88), 12);
    expect(floor.bends[1].turn).toBeCloseTo(degrees(3), 12);
    expect(floor.slopes[0].slope).toBeCloseTo(degrees(79), 12);
    expect(floor.gaugeWithin).toBeCloseTo(degrees(0.2), 12);
    expect(cheek).toMatchObject({ name: 'leftCheek', bends: [], mayCorrect: false, standingOn: undefined });
  });

  test('points by what was taped', () => {
    const [net] = tub.taped ?? [];
    expect(net.points.map(({ name }) => name)).toEqual(['S', 'T', 'U']);
    expect(net.sights.map(({ kind }) => kind).join(' ')).toBe(
      'length length length length length level level plumb length',
    );
    expect(net.freedom).toBe(1);
    const [s, t, u] = net.points;
    expect(distance(s.place, [1600, 400, 0])).toBeLessThan(0.3);
    expect(distance(t.place, [1000, 400, 0])).toBeLessThan(0.3);
    expect(distance(u.place, [1000, 0, -300])).toBeLessThan(0.001);
    // 0.8 mm either way is 0.46 mm as a deviation; the height of S hangs on the level alone.
    expect(s.deviations[2]).toBeCloseTo(0.8 / Math.sqrt(3), 6);
  });

  test('made, standing and reads are names elsewhere', () => {
    const named = tubOf(
      'units mm\nsheet s = steel thickness 1 radius 1\nlet made = 3\npoint standing = (0, 0, made)\nstrip reads of s from standing heading front across right 40 {\n    panel made 20 falling 90 deg\n    panel opens 30 level\n}\nside tape of s closes reads.left up to 3\nseam tape reads { weld tig }\nbend made opens\nseam made opens { weld tig }\n',
    );
    expect(named.panels.map(({ name }) => name)).toEqual(['reads.made', 'reads.opens', 'tape']);
  });

  test('what is accepted, by the name that findings use', () => {
    expect(tub.accepts.map(({ code, on }) => [code, on])).toEqual([
      ['drain/pool', 'floor.shelf'],
      ['drain/pool', 'floor.sump'],
      ['seal/open-corner', 'leftCheek floor'],
      ['make/default-shop', undefined],
    ]);
  });

  test('places sort as the text does', () => {
    const places = [
      tub.at,
      ...tub.sheets.map(({ at }) => at),
      ...tub.strips.map(({ at }) => at),
      ...tub.panels.slice(4).map(({ at }) => at),
    ];
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });
});

test('a shop with all that it may state', () => {
  const { shop } = tubOf(`units mm
shop "home shop" {
    press brake finger { force 25 ton  bed 800  die 12 16 25 40  punch radius 1  nose 30 deg  fingers 25 50 (2 * 50)  depth 90  opening 180
        profile punch (0, 0) (3, 10) (-3, 10) }
    folding brake leaf { width 1000  capacity 1.6  depth 60  nose 45 deg  angle at most 135 deg  profile clamp (0, 0) (60, 60) (0, 60) }
    cutter plasma { bed 1250 by 1500  kerf 1.5  smallest hole 3  pen offset (42, -1) }
    spot welder { throat 250  opening 160  sheets at most 3 + 2 }
    bends within 0.5 deg   marks within 0.3   clamp at most 80 N
    rates { cut 2.4 m/min  pierce 1 sec  stroke 0.5 min  spots 4 sec  fasteners 20 sec  weld 120 mm/min  solder 60 mm/min  sealant 10 in/min  work 60  metal 4.5 }
    stock stainless 18 ga 1220 by 2440
    stock aluminum thickness 2 1000 by 2000 count 3
    stock steel thickness 2 250 by 700 count 1 grain along 250
}
`);
  expect(shop?.pressBrakes[0]).toMatchObject({
    name: 'finger',
    bed: 800,
    dies: [12, 16, 25, 40],
    punchRadius: 1,
    fingers: [25, 50, 100],
    depth: 90,
    opening: 180,
    punchProfile: [
      [0, 0],
      [3, 10],
      [-3, 10],
    ],
    dieProfile: undefined,
  });
  expect(shop?.pressBrakes[0].forceN).toBeCloseTo(25 * 8896.443230521, 6);
  expect(shop?.foldingBrakes[0]).toMatchObject({
    name: 'leaf',
    width: 1000,
    capacity: 1.6,
    depth: 60,
    angleAtMost: degrees(135),
    clampProfile: [
      [0, 0],
      [60, 60],
      [0, 60],
    ],
  });
  expect(shop?.cutters[0]).toMatchObject({
    name: 'plasma',
    bed: [1250, 1500],
    kerf: 1.5,
    smallestHole: 3,
    penOffset: [42, -1],
  });
  expect(shop?.spotWelders[0]).toMatchObject({ name: 'spot welder', throat: 250, opening: 160, sheetsAtMost: [3, 2] });
  expect(shop?.rates?.sealant).toBeCloseTo(254 / 60, 9);
  expect(shop).toMatchObject({
    bendsWithin: degrees(0.5),
    marksWithin: 0.3,
    clampAtMostN: 80,
    rates: { cut: 40, pierce: 1, stroke: 30, spot: 4, fastener: 20, weld: 2, solder: 1, work: 60, metal: 4.5 },
    stock: [
      { material: 'stainless', size: [1220, 2440], count: undefined },
      { material: 'aluminium', thickness: 2, count: 3 },
      { material: 'steel', size: [250, 700], count: 1, rolledAlong: 'width' },
    ],
  });
});

describe('a flange to a level, plumb or mitred', () => {
  const SLOPING = `units mm\nsheet s = stainless 18 ga radius 1.2
point A = (0, 0, 0) point B = (300, 0, 0) point C = (300, 200, 20) point D = (0, 200, 20)
panel floor of s = A B C D\n`;
  const cornersOf = (text: string, name: string): readonly (readonly number[])[] =>
    tubOf(text)
      .panels.find((panel) => panel.name === name)!
      .corners.map((corner) => corner.map((x) => Math.round(x * 1e6) / 1e6 + 0));

  test('stands plumb with a level top where only the level is said', () => {
    // Worked by hand: the edge rises from z 0 to z 20, the top is straight at z 80, ends plumb by the mitres.
    const text = `${SLOPING}flange right on floor[B C] turned up to z 80 mitred\nflange front on floor[A B] turned up to z 80\nflange back on floor[C D] turned up to z 80\n`;
    const expected = [
      [300, 0, 0],
      [300, 200, 20],
      [300, 200, 80],
      [300, 0, 80],
    ];
    expect(cornersOf(text, 'right')).toEqual(expect.arrayContaining(expected));
  });

  test('without mitres its ends are square to its edge', () => {
    // Slope 1 in 10: square to it, 80 mm up goes 8 mm to the front.
    expect(cornersOf(`${SLOPING}flange right on floor[B C] turned up to z 80\n`, 'right')).toEqual(
      expect.arrayContaining([
        [300, -8, 80],
        [300, 194, 80],
      ]),
    );
  });

  test('lies level whatever its panel does, and four of them meet', () => {
    const walls = `flange front on floor[A B] turned up 80 deg by 60 mitred
flange back on floor[C D] turned up 90 deg by 60 mitred\nflange right on floor[B C] turned up plumb by 60\n`;
    const rail = cornersOf(`${SLOPING}${walls}flange rail on front.end turned out level by 30\n`, 'rail');
    expect(new Set(rail.map(([, , z]) => z)).size).toBe(1);
    expect(Math.max(...rail.map(([, y]) => y)) - Math.min(...rail.map(([, y]) => y))).toBeCloseTo(30, 6);
  });

  test('of one plane and two widths the mitre runs from corner to corner', () => {
    const flat = SLOPING.replaceAll(', 20)', ', 0)');
    const text = `${flat}flange f on floor[A B] turned up 90 deg by 60 mitred\nflange r on floor[B C] turned up 90 deg by 60 mitred
flange fr on f.end turned out level by 30 mitred\nflange rr on r.end turned out level by 20 mitred trim 0 2\n`;
    expect(cornersOf(text, 'fr')).toEqual(expect.arrayContaining([[320, -30, 60]]));
    expect(cornersOf(text, 'rr')).toEqual(expect.arrayContaining([[320, -30, 60]]));
  });
});

describe('dividers of a strip', () => {
  const BOX = `units mm\nsheet s = stainless 18 ga radius 1.2
strip box of s from (0, 700, 220) heading front across right 300 {
    panel back to z 20 falling 90 deg\n    panel bed 660 level\n    panel front to z 220 rising 90 deg\n}\n`;

  test('follow its legs from where they reach the level to where they reach it again', () => {
    const [baffle] = tubOf(`${BOX}side baffle of s crosses box at 80 from right up to 120\n`).panels.slice(-1);
    expect(baffle.corners.map((corner) => corner.map(Math.round))).toEqual([
      [220, 700, 120],
      [220, 700, 20],
      [220, 40, 20],
      [220, 40, 120],
    ]);
    expect(baffle.facing).toEqual([1, 0, 0]);
  });

  test('stand upright across a leg, as wide as it', () => {
    const [weir] = tubOf(`${BOX}panel weir of s stands on box.bed at 400 up to 150\n`).panels.slice(-1);
    expect(weir.corners.map((corner) => corner.map(Math.round))).toEqual([
      [0, 300, 20],
      [300, 300, 20],
      [300, 300, 150],
      [0, 300, 150],
    ]);
    expect(weir.edgeNames.top).toBe(2);
  });

  test('end upright where the legs that are named end below the level', () => {
    const [part] = tubOf(`${BOX}side part of s crosses box.bed at 80 up to 90\n`).panels.slice(-1);
    expect(part.corners.map(([, y, z]) => [Math.round(y), z])).toEqual([
      [700, 20],
      [40, 20],
      [40, 90],
      [700, 90],
    ]);
  });
});

describe('groups', () => {
  const text = `units mm\nsheet s = stainless 18 ga radius 1.2
existing cabinet {\n    sheet plate = steel 14 ga
    panel deck of plate metal up = (0, 0, 0) (300, 0, 0) (300, 200, 0) (0, 200, 0)\n}
support stand {\n    strip arm of s from (0, 100, -20) heading front across right 40 {
        panel a 30 falling 90 deg\n        panel b 50 level\n    }
    flange foot on arm.b.end turned down 90 deg by 20\n}
removable tray {\n    panel grid of s = (0, 0, 90) (300, 0, 90) (300, 200, 90)\n}
part lid {\n    panel grid of s = (0, 0, 190) (300, 0, 190) (300, 200, 190)\n}
rim stand.arm.a.start\nrim tray.grid[P Q]\npoint P = (0, 0, 90)  point Q = (300, 0, 90)\n`;

  test('carry their names and what they are for to their panels', () => {
    const tub = tubOf(text);
    expect(tub.groups?.map(({ name, role }) => [name, role])).toEqual([
      ['cabinet', 'existing'],
      ['stand', 'support'],
      ['tray', 'removable'],
      ['lid', 'part'],
    ]);
    expect(tub.panels.map(({ name, group }) => [name, group])).toEqual([
      ['cabinet.deck', 0],
      ['stand.arm.a', 1],
      ['stand.arm.b', 1],
      ['stand.foot', 1],
      ['tray.grid', 2],
      ['lid.grid', 3],
    ]);
    expect(tub.panels[0].facing?.map((x) => x + 0)).toEqual([0, 0, -1]);
    expect(tub.rims.map(({ edge }) => tub.panels[edge.panel].name)).toEqual(['stand.arm.a', 'tray.grid']);
  });
});

test('a stand turns what is made, by its angle down the side that is named', () => {
  const text = 'units mm\nsheet s = stainless 18 ga radius 1.2\npanel p of s = (0, 0, 0) (100, 0, 0) (100, 50, 0)\n';
  const tub = tubOf(`${text}
stands tilted 30 deg down right
`);
  expect(tub.stands).toMatchObject({ side: 'right', towards: [1, 0, 0] });
  expect(tub.panels[0].corners[1][0]).toBeCloseTo(100 * Math.cos(Math.PI / 6), 9);
  expect(tub.panels[0].corners[1][2]).toBeCloseTo(-50, 9);
});

describe('groups that are made', () => {
  const text = `units mm\nsheet s = stainless 18 ga radius 1.2
support leg {\n    panel post of s = (0, 0, 0) (0, 0, -90) (30, 0, -90)\n}
mirror leg as other across x 100
repeat leg 3 times by (0, 80, 5)\n`;

  test('have the panels of their group, as a mirror shows them or a step on', () => {
    const tub = tubOf(text);
    expect(tub.groups?.map(({ name, role, madeOf }) => [name, role, madeOf?.isMirrored])).toEqual([
      ['leg', 'support', undefined],
      ['other', 'support', true],
      ['leg2', 'support', false],
      ['leg3', 'support', false],
    ]);
    expect(tub.panels.slice(1).map(({ name, corners }) => [name, corners[2]])).toEqual([
      ['other.post', [200, 0, -90]],
      ['leg2.post', [30, 80, -85]],
      ['leg3.post', [30, 160, -80]],
    ]);
  });
});

describe('what is wished', () => {
  const text = `units mm\nlet rim = 60 free 40 to 120\nsheet s = stainless 18 ga radius 1.2
panel base of s = (0, 0, 0) (300, 0, 0) (300, 200, 0)
existing cabinet {\n    panel deck of s metal up = (0, 0, 90) (300, 0, 90) (300, 200, 90)\n}
aim { least let rim  fewest bends  clear tub cabinet at least 3  clear cabinet tub at most 1 in
    slope of base at least 2 deg  one machine only  fits on stock  no errors }\n`;

  test('comes to the model in its order, as it is written', () => {
    const wishes = tubOf(text).aim!.wishes.map(({ at: _, ...wish }) => wish);
    expect(wishes).toEqual([
      { text: 'least let rim', kind: 'goal', way: 'least', of: expect.objectContaining({ kind: 'value' }) as unknown },
      { text: 'fewest bends', kind: 'goal', way: 'least', of: { kind: 'bends' } },
      { text: 'clear tub cabinet at least 3', kind: 'bound', way: 'least', of: { kind: 'clear', bodies: [-1, 0] }, limit: 3 },
      { text: 'clear cabinet tub at most 1 in', kind: 'bound', way: 'most', of: { kind: 'clear', bodies: [0, -1] }, limit: 25.4 },
      { text: 'slope of base at least 2 deg', kind: 'bound', way: 'least', of: { kind: 'slope', panel: 0 }, limit: (2 * Math.PI) / 180 },
      { text: 'one machine only', kind: 'machine' },
      { text: 'fits on stock', kind: 'stock' },
      { text: 'no errors', kind: 'findings', none: 'errors' },
    ]); // prettier-ignore
  });

  test.each([
    ['clear tub tub at least 3', 'Both are the same thing'],
    ['clear tub base at least 3', '`base` is a panel; it needs to be a support, a removable or an existing thing'],
    ['clear tub cabinet at least 3 L', 'Wished clearance is a volume'],
    ['most let rim', '`most let rim` comes after `least let rim`, which decides all that it could'],
    ['fits on stock', '`fits on stock` is wished twice; it needs to stand once'],
  ])('%s is refused', (wish, message) => {
    const { findings } = analyseText(text.replace('clear tub cabinet at least 3', wish));
    expect(findings.map((each) => each.message)).toContainEqual(expect.stringContaining(message));
  });
});

describe('a seat', () => {
  const text = `units mm
sheet s = stainless 18 ga radius 1.2
let play = 2
panel base of s = (0, 0, 0) (300, 0, 0) (300, 200, 0)
removable tray in base play play / 4 {
    panel grid of s metal up = (0, 0, 90) (300, 0, 90) (300, 200, 90)
}
removable lid play 1 {
    panel cover of s metal up = (0, 0, 190) (300, 0, 190) (300, 200, 190)
}
`;

  test('comes to the model with its play; `play` is a name elsewhere', () => {
    const { groups } = tubOf(text);
    expect(groups?.map(({ seat, play }) => [seat, play])).toEqual([
      [0, 0.5],
      [undefined, 1],
    ]);
  });

  test.each([
    ['removable tray in base play 1 L {', 'Play is a volume'],
    ['removable tray in grid play 1 {', 'is a part of itself'],
    ['removable tray in nowhere play 1 {', 'nowhere'],
    ['removable tray play 1 play 2 {', '`play` is stated 2 times'],
    ['removable tray in {', ''],
    ['removable tray play {', ''],
    ['removable tray in base play', ''],
    ['support tray play 1 {', ''],
  ])('%s is refused', (wrong, message) => {
    const { findings } = analyseText(text.replace('removable tray in base play play / 4 {', wrong), { rules: [] });
    expect(findings.map((each) => each.message)).toContainEqual(expect.stringContaining(message));
  });
});

describe('room that must stay', () => {
  const text = `units mm
sheet s = stainless 18 ga radius 1.2
panel base of s = (0, 0, 0) (300, 0, 0) (300, 200, 0)
removable tray {
    panel grid of s metal up = (0, 0, 90) (300, 0, 90) (300, 200, 90)
}
existing clearing {
    panel deck of s metal up = (0, 0, 190) (300, 0, 190) (300, 200, 190)
}
clear tray tub at least 0.5
clear clearing tray at least 1/2 in
`;

  test('comes to the model by what is to stay clear of what', () => {
    const { clears } = tubOf(text);
    expect(clears?.map(({ bodies, least }) => [bodies, least])).toEqual([
      [[0, -1], 0.5],
      [[1, 0], 12.7],
    ]);
  });

  test.each([
    ['clear tray tray at least 1', 'Both are the same thing'],
    ['clear tray base at least 1', '`base` is a panel; it needs to be a support, a removable or an existing thing'],
    ['clear tray tub at least 3 L', 'Clear distance is a volume'],
    ['clear tray tub at least -1', 'Clear distance is -1'],
    ['clear tray at least 1', ''],
    ['clear tray tub', ''],
    ['clear', ''],
  ])('%s is refused', (wrong, message) => {
    const { findings, tub } = analyseText(text.replace('clear tray tub at least 0.5', wrong));
    expect(findings.map((each) => each.message)).toContainEqual(expect.stringContaining(message));
    expect(tub.panels).toHaveLength(3);
  });
});

describe('measured corners laid flat', () => {
  const measured = `units mm\nsheet s = stainless 18 ga radius 1.2
point A = (0, 0, 0) point B = (300, 0, 1) point C = (300, 200, 4) point D = (0, 200, 0)
point E = (0, 1, 80) point F = (300, -2, 81)
panel base of s flattened = A B C D\npanel wall of s flattened = A B F E\nbend base wall\n`;

  test('lie in one plane, and panels that share them still meet', () => {
    const { tub, findings } = analyseText(measured);
    const codes = findings.map(({ code }) => code);
    expect(codes.filter((code) => code === 'shape/corners-moved')).toHaveLength(2);
    expect(codes).not.toContain('shape/not-flat');
    expect(codes).not.toContain('bend/no-shared-edge');
    expect(distance(tub.panels[0].corners[1], tub.panels[1].corners[1])).toBe(0);
  });

  test('move by what the best plane leaves: a quarter of the twist of a rectangle', () => {
    // The twist of 4 mm at one corner leaves +1, -1, +1, -1 mm from the best plane (derived by hand).
    const { movedBy } = tubOf(measured.replace('(300, 0, 1)', '(300, 0, 0)').replace(/panel wall.*/s, '')).panels[0];
    for (const moved of movedBy!) expect(moved).toBeCloseTo(1, 3);
  });
});

describe('a flange finds its wet side', () => {
  const PAN =
    'units mm\nsheet s = steel 18 ga\npoint A = (0, 0, 0) point B = (100, 0, 0) point C = (100, 80, 0) point D = (0, 80, 0)\n';

  test('up and in go the same way on a floor, whichever way round its corners are stated', () => {
    for (const corners of ['A B C D', 'D C B A']) {
      for (const turn of ['up', 'in']) {
        const { panels } = tubOf(
          `${PAN}panel floor of s = ${corners}\nflange wall on floor[A B] turned ${turn} 90 deg by 30\n`,
        );
        expect(Math.max(...panels[1].corners.map((corner) => corner[2]))).toBeCloseTo(30, 9);
      }
    }
  });

  test('a flange on a flange on a flange keeps it', () => {
    const { panels } = tubOf(
      `${PAN}panel floor of s = A B C D\nflange a on floor[A B] turned up 90 deg by 30\nflange b on a.end turned out 90 deg by 10\nflange c on b.end turned out 90 deg by 5\n`,
    );
    const z = (panel: number): readonly number[] => panels[panel].corners.map((corner) => Math.round(corner[2]));
    expect(z(2)).toEqual([30, 30, 30, 30]);
    expect(Math.min(...z(3))).toBe(25);
  });

  test('trims are measured in the order in which the edge is written', () => {
    const trimmed = (edge: string): number =>
      Math.min(
        ...tubOf(
          `${PAN}panel floor of s = A B C D\nflange wall on floor[${edge}] turned up 90 deg by 30 trim 10 0\n`,
        ).panels[1].corners.map((corner) => corner[0]),
      );
    expect(trimmed('A B')).toBeCloseTo(10, 9);
    expect(trimmed('B A')).toBeCloseTo(0, 9);
  });
});

test.each(['steel', 'galvanized', 'stainless', 'aluminium', 'copper', 'brass'])('%s is a material', (material) => {
  expect(tubOf(`units mm\nsheet s = ${material} thickness 1 radius 1\n`).sheets[0].material).toBe(material);
});

test.each(['chips', 'sludge', 'scraps'])('an inflow may carry %s', (solids) => {
  const { inflows } = tubOf(
    `units mm\nsheet s = steel thickness 1 radius 1\npoint A = (0, 0, 0)  point B = (100, 0, 0)  point C = (100, 100, 0)\n` +
      `panel floor of s = A B C\ninflow 10 L/min on floor carrying ${solids} 6 L/min\n`,
  );
  expect(inflows[0].solids).toEqual({ kind: solids, rateMm3S: 100_000 });
});

test('a fault of our own becomes one finding, and the text is still read', () => {
  const services = createTubServices(EmptyFileSystem);
  const document = openTexts(services, [[URI.parse('file:///bench/fault.tub'), 'let a = 1 mm\nlet b = \n']]);
  Object.defineProperty(document.parseResult.value.statements[0], 'value', {
    get: () => {
      throw new Error('made to fail');
    },
  });
  const { findings } = analyseNow(services.shared.workspace.LangiumDocuments, document, { rules: [] });
  expect(findings.map(({ code }) => code)).toEqual(['internal/language-failed', 'text/syntax']);
  expect(findings[0].values['reason']).toContain('made to fail');
});
