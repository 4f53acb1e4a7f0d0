import fc from 'fast-check';

const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });

/** A basin of a strip and two sides, with rim flanges that lean in or out, hems, and tabs on either part, as a text. */
export const rimmedText: fc.Arbitrary<string> = fc
  .record({
    thickness: fc.constantFrom(0.8, 1.2, 1.5, 2),
    radius: fc.constantFrom(0.8, 1.2, 2),
    across: whole(150, 400),
    rim: whole(90, 180),
    base: whole(150, 350),
    slopes: fc.tuple(whole(75, 90), whole(70, 90)),
    tabs: fc.constantFrom('on floor', 'on SIDE', 'loose', undefined),
    flanges: fc.record({
      side: fc.option(fc.tuple(fc.constantFrom('in', 'out'), whole(12, 30), whole(60, 100))),
      front: fc.option(fc.tuple(fc.constantFrom('in', 'out'), whole(12, 30), whole(60, 100))),
      back: fc.option(fc.tuple(fc.constantFrom('in', 'out'), whole(12, 30), whole(60, 100))),
    }),
    hem: fc.boolean(),
    shelf: fc.option(whole(60, 150)),
  })
  .map(({ thickness, radius, across, rim, base, slopes, tabs, flanges, hem, shelf }) => {
    const seam = (side: string): string =>
      `seam ${side} floor { ${tabs === undefined ? '' : `tabs ${tabs.replace('SIDE', side)} 18 wide ${Math.ceil(4 * thickness + 3 * radius + 8)} deep every 60 margin 30 `}weld tig }`;
    const flange = (name: string, edge: string, given: [string, number, number] | null, trim: number): string[] =>
      given === null
        ? []
        : [`flange ${name} on ${edge} turned ${given[0]} ${given[2]} deg by ${given[1]} trim ${trim} ${trim}`];
    return [
      'units mm',
      'tub "rimmed"',
      `sheet skin = steel thickness ${thickness} radius ${radius}`,
      `strip floor of skin from (0, 600, ${rim}) heading front across right ${across} {`,
      `  panel back to z 40 falling ${slopes[0]} deg`,
      ...(shelf === null ? [] : [`  panel shelf ${shelf} falling 3 deg`]),
      `  panel base ${base} falling ${shelf === null ? 2 : 6} deg`,
      `  panel front to z ${rim} rising ${slopes[1]} deg`,
      '}',
      `side left of skin closes floor.left up to ${rim}`,
      `side right of skin closes floor.right up to ${rim}`,
      ...flange('leftRim', 'left.top', flanges.side, 30),
      ...flange('rightRim', 'right.top', flanges.side, 30),
      ...flange('frontRim', 'floor.front.end', flanges.front, 10),
      ...flange('backRim', 'floor.back.start', flanges.back, 10),
      ...(hem && flanges.front ? ['rim frontRim.end hem closed 9'] : []),
      seam('left'),
      seam('right'),
      '',
    ].join('\n');
  });
