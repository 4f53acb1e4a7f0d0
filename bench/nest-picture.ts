/** Draws one sheet as it is laid first and as it is tightened: media/nest.svg. Usage: npm run bench nest-picture */
import fc from 'fast-check';
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { flattenContour } from '../src/analysis/geometry/contour.js';
import { placePoint, toldOffcutOf, utilisationOf, type NestSheet } from '../src/analysis/nest/nest.js';
import { finishNest, nestFlats } from '../src/analysis/nest/nest-tub.js';
import { someFlat, stockOf, tubWith } from '../tests/analysis/nest/random-flats.js';

declare const PROJECT_ROOT: string;

const tub = tubWith([stockOf([700, 1400])]);
const flats = fc.sample(someFlat, { seed: 12, numRuns: 24 }).map((flat) => ({ ...flat, quantity: 1 }));

const outlineOf = (sheet: NestSheet): string =>
  sheet.placed
    .map((placement) => {
      const rings = [placement.flat.outline, ...placement.flat.holes.map(({ contour }) => contour)];
      const d = rings.map((ring) => {
        const points = flattenContour(ring, 0.5).map((point) => placePoint(placement, point));
        return `M${points.map(([x, y]) => `${x.toFixed(1)} ${(sheet.size[1] - y).toFixed(1)}`).join('L')}Z`;
      });
      return `<path d="${d.join('')}" fill-rule="evenodd"/>`;
    })
    .join('\n');

const drawn = (sheet: NestSheet, words: string): string => {
  const [length, width] = sheet.size;
  const left = toldOffcutOf(sheet).size;
  const told = `${words}: ${Math.round(100 * utilisationOf(sheet))} % of the sheet, ${left ? `${left[0]} x ${left[1]} mm left whole` : 'nothing left whole'}`;
  return `<rect width="${length}" height="${width}" fill="#f4f4f2" stroke="#777" stroke-width="3"/>
<path d="M${sheet.usedLength.toFixed(1)} 0V${width}" stroke="#777" stroke-width="3" stroke-dasharray="14 10"/>
<g fill="#9db8c9" stroke="#24424f" stroke-width="2">
${outlineOf(sheet)}
</g>
<text x="0" y="${width + 45}" font-family="sans-serif" font-size="34" fill="#333">${told}</text>`;
};

const first = finishNest(nestFlats(tub, flats, { tries: 0 })).sheets[0];
const tight = finishNest(nestFlats(tub, flats, { tries: 1_500_000 })).sheets[0];
const [length, width] = first.size;
const height = 2 * width + 150;
writeFileSync(
  path.join(PROJECT_ROOT, 'media', 'nest.svg'),
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-20 -20 ${length + 40} ${height + 40}" width="1000">
<rect x="-20" y="-20" width="${length + 40}" height="${height + 40}" fill="#fff"/>
${drawn(first, 'As first laid')}
<g transform="translate(0 ${width + 85})">
${drawn(tight, 'Tightened')}
</g>
</svg>
`,
);
