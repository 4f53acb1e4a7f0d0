import fc from 'fast-check';

const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });

const SEAMS = [
  'tabs loose 18 wide 16 deep every 60 weld tig',
  'tabs loose 20 wide 16 deep every 60 rivets 3.2 every 30 sealant 4',
  'tabs loose 18 wide 16 deep every 70 spots 1 weld tig',
  'tabs on floor 18 wide 16 deep every 60 weld tig',
  'tabs on SIDE 18 wide 16 deep every 60 spots 1 weld tig',
  'lap 20 on floor rivets 3.2 every 30 sealant 4',
  'lap 18 on SIDE spots every 30 sealant 4',
  'weld tig',
];

/** A basin with all that may be joined to it: seams of every style, a divider, lips, a strainer's frame, a rail hung from a deck, and a stand. */
export const assemblyText: fc.Arbitrary<string> = fc
  .record({
    thickness: fc.constantFrom(0.8, 1.2, 1.5, 2),
    radius: fc.constantFrom(0.8, 1.6, 2.5),
    size: fc.tuple(whole(220, 400), whole(200, 350), whole(100, 180)),
    slopes: fc.tuple(whole(70, 90), whole(70, 90), whole(1, 8)),
    seams: fc.tuple(fc.constantFrom(...SEAMS), fc.constantFrom(...SEAMS)),
    divider: fc.option(fc.tuple(fc.boolean(), whole(40, 160))),
    lip: fc.option(whole(8, 25)),
    strainer: fc.constant(false),
    rail: fc.option(
      fc.constantFrom(
        'bolted M6 every 60 heads on stall.deck rivetnut in rail',
        'bolted M5 every 60',
        'rivets 4 every 40',
      ),
    ),
    stand: fc.option(fc.tuple(fc.constantFrom('bolted M5 every 40', 'rivets 3.2 every 30', 'weld tig'), whole(30, 80))),
  })
  .map(({ thickness, radius, size: [wide, deep, rim], slopes, seams, divider, lip, strainer, rail, stand }) => {
    const outlet =
      lip === null
        ? []
        : [
            `outlet drain in floor.base at center(floor.base) + (0, -30, -30 * tan(${slopes[2]} deg)) diameter 40 { lip ${lip}`,
            ...(strainer ? ['  strainer mesh 12 wire 0.5 size 90 by 70 blocked 50 % bolted M5 sealed'] : []),
            '}',
          ];
    const [isAcross, at] = divider ?? [false, 0];
    const dividers =
      divider === null
        ? []
        : isAcross
          ? [
              `panel weir of skin stands on floor.base at ${Math.min(at + 20, deep - 30)} up to ${rim - 30}`,
              ...['floor.base', 'left', 'right'].map((to) => `seam weir ${to} { weld tig }`),
            ]
          : [
              `side wall of skin crosses floor at ${at} from left metal right up to ${rim - 30}`,
              'seam wall floor { weld tig }',
            ];
    const rails =
      rail === null
        ? []
        : [
            'existing stall {',
            `  sheet plate = steel thickness 2`,
            `  panel deck of plate metal up = (-90, -90, ${rim}) (${wide + 90}, -90, ${rim}) (${wide + 90}, ${deep + 90}, ${rim}) (-90, ${deep + 90}, ${rim})`,
            `  cutout mouth in deck from (6, 6, ${rim}) to (${wide - 6}, ${deep - 6}, ${rim})`,
            '}',
            'flange rail on left.top turned out level by 30',
            `seam rail stall.deck { ${rail} }`,
          ];
    const under = 20 - Math.tan((slopes[2] * Math.PI) / 180) * deep;
    const stands =
      stand === null
        ? []
        : [
            'support stand {',
            `  strip leg of skin from (40, ${deep / 2 - 20}, ${(under - 120).toFixed(3)}) heading right across back 40 {`,
            `    panel foot ${stand[1]} level`,
            '    panel rise 60 rising 90 deg',
            '    panel shelf 50 level',
            '  }',
            `  panel plate of skin metal up = (${40 + stand[1]}, ${deep / 2 - 20}, ${(under - 60).toFixed(3)}) (${90 + stand[1]}, ${deep / 2 - 20}, ${(under - 60).toFixed(3)}) (${90 + stand[1]}, ${deep / 2 + 20}, ${(under - 60).toFixed(3)}) (${40 + stand[1]}, ${deep / 2 + 20}, ${(under - 60).toFixed(3)})`,
            '}',
            `seam plate shelf { ${stand[0]} }`,
          ];
    return [
      'units mm',
      `sheet skin = stainless thickness ${thickness} radius ${radius}`,
      `strip floor of skin from (0, ${deep}, ${rim}) heading front across right ${wide} {`,
      `  panel back to z 20 falling ${slopes[0]} deg`,
      `  panel base ${deep - 60} falling ${slopes[2]} deg`,
      `  panel front to z ${rim} rising ${slopes[1]} deg`,
      '}',
      `side left of skin closes floor.left up to ${rim}`,
      `side right of skin closes floor.right up to ${rim}`,
      `seam left floor { ${seams[0].replace('SIDE', 'left')} }`,
      `seam right floor { ${seams[1].replace('SIDE', 'right')} }`,
      ...dividers,
      ...outlet,
      ...rails,
      ...stands,
      '',
    ].join('\n');
  });
