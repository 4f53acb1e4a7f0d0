import { setupsFor } from '../../analysis/making/bend-fit.js';
import { shopOf } from '../../analysis/making/default-shop.js';
import type { Bend } from '../../analysis/shape/shape.js';
import { inDeg, inMm } from '../../analysis/model/wording.js';
import type { Evaluation } from '../analyse.js';
import { plain } from './plain.js';

/** One bend with its arithmetic and the way the shop would make it, as Markdown. */
export const bendText = ({ tub, stages }: Evaluation, bend: Bend): string => {
  const face = stages.shape().faces[bend.faces[0]];
  const sheet = tub.sheets[tub.panels[face.panel].sheet];
  const task = {
    material: sheet.material,
    thickness: bend.thickness,
    radius: bend.radius,
    angle: bend.angle,
    length: bend.length,
  };
  const setup = setupsFor({ ...task, flanges: [Infinity, Infinity] }, shopOf(tub)).at(0);
  const source =
    bend.kSource === 'coupon' ? 'the test bend' : bend.kSource === 'DIN 6935' ? 'DIN 6935' : `the ${bend.kSource}`;
  return [
    `**Bend** \`${bend.name}\`: ${inDeg(bend.angle)} from flat; a gauge across it reads ${inDeg(Math.PI - bend.angle)}`,
    `- ${inMm(bend.length)} long, wet face on the ${bend.wet}`,
    `- inside radius ${inMm(bend.radius)}, K ${plain(bend.kFactor, 3)} from ${source}`,
    `- allowance ${inMm(bend.allowance)}, setback ${inMm(bend.setback)}, deduction ${inMm(bend.deduction)}`,
    ...(setup ? [setupLine(setup)] : []),
  ].join('\n');
};

const setupLine = (setup: ReturnType<typeof setupsFor>[number]): string => {
  const die = setup.die === undefined ? '' : `, die ${inMm(setup.die)}`;
  const force =
    setup.force === undefined ? '' : `, ${plain(setup.force / 1000, 1)} kN (${plain(setup.load * 100, 0)} % of it)`;
  return `- on \`${setup.machine.name}\`${die}${force}; bend to ${inDeg(setup.bendTo)}; shortest flange ${inMm(setup.shortestFlange)}`;
};
