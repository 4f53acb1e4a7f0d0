import type { AstNode } from 'langium';
import type { Parameter } from '../../analysis/model/tub.js';
import { atPoint, inDeg } from '../../analysis/model/wording.js';
import type { Evaluation } from '../analyse.js';
import type { Outcome } from '../solve/outcome.js';
import { isPoint } from '../generated/ast.js';
import type { FreeValue } from '../lower/free.js';
import { placeOfPoint } from '../lower/point-place.js';
import { plain } from './plain.js';

const INCH = 25.4;

/** What a `let` or a `point` comes to. */
export const valueText = (analysis: Evaluation, node: AstNode, outcome?: Outcome): string | undefined => {
  if (isPoint(node)) {
    const place = placeOfPoint(analysis.documents, node);
    return place && `**Point** \`${node.name}\` at ${atPoint(place)} mm`;
  }
  const parameter = analysis.tub.parameters.find((each) => each.at === analysis.sources.idOf(node));
  if (!parameter) return undefined;
  const free = analysis.free.find((each) => each.node === node);
  return `\`let ${parameter.name}\` = ${parameterWords(parameter)}${free ? `\n\n${freeWords(free)}${foundWords(free, outcome)}` : ''}`;
};

/** What was worked out for it, while the text is still the one that was worked out. */
const foundWords = ({ node, unit }: FreeValue, outcome: Outcome | undefined): string => {
  const found = outcome?.values.find(({ name }) => name === node.name);
  if (!found) return '';
  const words = outcome?.isMet ? 'meets the wishes best' : 'comes nearest to the wishes, which cannot all be met';
  return `\n- ${found.text}${unit === '' ? '' : ` ${unit}`} ${words}`;
};

/** The limits of a free value, in the unit in which it is written. */
const freeWords = ({ low, high, step, unit }: FreeValue): string => {
  const inUnit = (value: number): string => `${plain(value, 4)}${unit === '' ? '' : ` ${unit}`}`;
  return `- free from ${inUnit(low)} to ${inUnit(high)}${step === undefined ? '' : `, in steps of ${inUnit(step)}`}`;
};

/** A value in the units of the shop. */
export const parameterWords = ({ value, dimension }: Parameter): string => {
  if (typeof value !== 'number') return `${atPoint(value)} mm`;
  switch (dimension) {
    case 'length':
      return `${plain(value, 3)} mm (${plain(value / INCH, 4)} in)`;
    case 'angle':
      return `${inDeg(value)} (${plain(Math.tan(value) * 100, 2)} % slope)`;
    case 'volume':
      return `${plain(value / 1e6, 3)} L`;
    case 'flow':
      return `${plain((value * 60) / 1e6, 3)} L/min`;
    case 'force':
      return `${plain(value / 1000, 3)} kN`;
    case 'mass':
      return `${plain(value, 3)} kg`;
    case 'viscosity':
      return `${plain(value, 3)} cSt`;
    case 'tension':
      return `${plain(value * 1e6, 2)} mN/m`;
    case 'time':
      return `${plain(value, 2)} sec`;
    case 'speed':
      return `${plain((value * 60) / 1000, 3)} m/min`;
    case 'density':
      return `${plain(value, 1)} kg/m³`;
    default:
      return plain(value, 4);
  }
};
