import fc from 'fast-check';
import { real } from '../random/arbitrary-part.js';

type Style = 'corner' | 'over' | 'covered' | 'lap' | 'lapped' | 'tabs' | 'taken' | 'clips' | 'bend';

const style: fc.Arbitrary<Style> = fc.constantFrom(
  'corner',
  'over',
  'covered',
  'lap',
  'lapped',
  'tabs',
  'taken',
  'clips',
  'bend',
);

/** Share of the walls. */
const HEMMED = 0.2;

/** Four walls that lean in or out of a level floor by wet angles of 60 to 150 deg, joined in every style, hemmed or not, as a text. */
export const wholeTub: fc.Arbitrary<string> = fc
  .record({
    thickness: real(0.6, 5),
    radius: real(0.6, 6),
    size: fc.tuple(real(250, 400), real(250, 400), real(50, 90)),
    wet: fc.tuple(real(60, 150), real(60, 150), real(60, 150), real(60, 150)),
    feet: fc.tuple(style, style, style, style),
    corners: fc.tuple(style, style, style, style),
    hems: fc.array(real(0, 1), { minLength: 4, maxLength: 4 }),
  })
  .map(({ thickness, radius, size: [long, wide, high], wet, feet, corners, hems }) => {
    const [front, right, back, left] = wet.map((angle) => high / Math.tan((angle * Math.PI) / 180));
    const place = (x: number, y: number, z: number): string => `(${x.toFixed(4)}, ${y.toFixed(4)}, ${z.toFixed(4)})`;
    const names = ['front', 'right', 'back', 'left'];
    const low = ['A', 'B', 'C', 'D'];
    const top = ['E', 'F', 'G', 'H'];
    const deep = (4 * thickness + 4 * radius + 12).toFixed(2);
    const joint = (a: string, b: string, how: Style, mayBend: boolean): string => {
      const tabs = (on: string): string => `tabs ${on} 16 wide ${deep} deep every 60 margin ${deep}`;
      switch (how) {
        case 'bend':
          return mayBend ? `bend ${a} ${b}` : `seam ${a} ${b} { weld tig }`;
        case 'corner':
          return `seam ${a} ${b} { weld tig }`;
        case 'over':
        case 'covered':
          return how === 'over' ? `seam ${a} ${b} { over weld tig }` : `seam ${b} ${a} { over weld tig }`;
        case 'lap':
        case 'lapped':
          return how === 'lap' ? `seam ${a} ${b} { lap 15 weld tig }` : `seam ${b} ${a} { lap 15 weld tig }`;
        case 'clips':
          return `seam ${a} ${b} { ${tabs('loose')} weld tig }`;
        default:
          return `seam ${a} ${b} { ${tabs(`on ${how === 'tabs' ? a : b}`)} weld tig }`;
      }
    };
    return [
      'units mm',
      'tub "whole"',
      `sheet skin = steel thickness ${thickness.toFixed(3)} radius ${radius.toFixed(3)}`,
      `point A = ${place(0, 0, 0)}`,
      `point B = ${place(long, 0, 0)}`,
      `point C = ${place(long, wide, 0)}`,
      `point D = ${place(0, wide, 0)}`,
      `point E = ${place(left, front, high)}`,
      `point F = ${place(long - right, front, high)}`,
      `point G = ${place(long - right, wide - back, high)}`,
      `point H = ${place(left, wide - back, high)}`,
      'panel base of skin = A B C D',
      ...names.map((name, i) => `panel ${name} of skin = ${low[i]} ${low[(i + 1) % 4]} ${top[(i + 1) % 4]} ${top[i]}`),
      ...names.map((name, i) => joint('base', name, feet[i], true)),
      ...names.map((name, i) => {
        const next = (i + 1) % 4;
        // One piece must not close to a ring.
        return joint(name, names[next], corners[i], feet[i] === 'bend' && feet[next] !== 'bend' && i % 2 === 0);
      }),
      ...names.flatMap((name, i) =>
        hems[i] < HEMMED
          ? [`rim ${name}[${top[i]} ${top[(i + 1) % 4]}] hem closed ${(4 * thickness + 6).toFixed(2)} turned dry`]
          : [],
      ),
      '',
    ].join('\n');
  });
