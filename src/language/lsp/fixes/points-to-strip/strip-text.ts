import { AstUtils } from 'langium';
import { NOISE, WRITTEN } from '../../../../analysis/geometry/tolerance.js';
import { addScaled, dot, lengthOf, subtract, type Vec3 } from '../../../../analysis/geometry/vec.js';
import { legDirection } from '../../../../analysis/shape/corners/strip.js';
import {
  isFraction,
  isNamed,
  isPoint,
  isQuantity,
  isTriple,
  isUnits,
  type Bend,
  type Corner,
  type Expression,
  type Heading,
  type TubFile,
} from '../../../generated/ast.js';
import { headings } from '../../../lower/panels/strips.js';
import { units } from '../../../lower/values/units.js';
import type { Row } from './row.js';

/** What stands beside each leg's panel in the text: lines of comment above it, and behind it on its line. */
export interface LegNotes {
  readonly above: readonly string[];
  readonly behind: string;
}

/** The `strip` statement of a row. What its corners state by names is stated so where a leg is level or plumb. */
export const stripText = (row: Row, name: string, from: string, notes: readonly LegNotes[], indent: string): string => {
  const file = AstUtils.findRootNode(row.panels[0]) as TubFile;
  const legs = legsOf(row, lengthWriter(file));
  const widths = [0, 1].map((column) => Math.max(...legs.map((leg) => leg[column].length)));
  const lines = legs.flatMap(([panel, length, slope], i) => [
    ...notes[i].above.map((line) => `${indent}    ${line}`),
    `${indent}    panel ${panel.padEnd(widths[0])}  ${length.padEnd(widths[1])}  ${slope}${notes[i].behind && `  ${notes[i].behind}`}`,
  ]);
  const { heading, across } = row.strip;
  const head = `strip ${name} of ${row.panels[0].sheet.$refText} from ${from} heading ${wordOf(heading)} across ${wordOf(across)} ${widthText(row, lengthWriter(file))} {`;
  return [head, ...lines, `${indent}}`].join('\n');
};

type Write = (length: number) => string;

const legsOf = (row: Row, write: Write): readonly (readonly [string, string, string])[] => {
  const { panels, bends, strip, corners } = row;
  let at = strip.from;
  return panels.map((panel, i) => {
    const fold = strip.folds[i + 1];
    const way = subtract(corners[fold.face][fold.left], at);
    const rise = written(Math.atan2(way[2], dot(way, strip.heading)), WRITTEN / lengthOf(way));
    const direction = legDirection(strip.heading, rise.value);
    const length = lengthOf(way);
    at = addScaled(at, direction, length);
    const options = i > 0 ? optionsOf(bends[i - 1]) : '';
    const along = alongAxis(direction);
    const target = along === undefined ? undefined : statedBy(row, i, along);
    const to = target ? `to ${'xyz'[along!]} ${target}` : write(length);
    return [panel.name, to, `${rise.text}${options}`] as const;
  });
};

/** `falling 38 deg`: as few digits as keep the end of the leg where it is. */
const written = (rise: number, within: number): { readonly value: number; readonly text: string } => {
  if (Math.abs(rise) <= NOISE) return { value: 0, text: 'level' };
  const degrees = fewestDigits(Math.abs((rise * 180) / Math.PI), (within * 180) / Math.PI);
  return {
    value: (Math.sign(rise) * Number(degrees) * Math.PI) / 180,
    text: `${rise < 0 ? 'falling' : 'rising'} ${degrees} deg`,
  };
};

const lengthWriter = (file: TubFile): Write => {
  const unit = file.statements.find(isUnits)?.unit;
  const factor = unit ? units[unit].factor : 1;
  return (length) => `${fewestDigits(length / factor, WRITTEN / factor)}${unit ? '' : ' mm'}`;
};

/** No exponent, no trailing zeros, no minus zero. */
const fewestDigits = (value: number, within: number): string => {
  for (let digits = 0; digits < 15; digits++) {
    const text = value.toFixed(digits);
    if (Math.abs(Number(text) - value) <= within) return Number(text) === 0 ? '0' : text;
  }
  return value.toFixed(15);
};

export const coordinates = (place: Vec3, file: TubFile): string => `(${place.map(lengthWriter(file)).join(', ')})`;

const alongAxis = (direction: Vec3): 0 | 1 | 2 | undefined =>
  ([0, 1, 2] as const).find((axis) => Math.abs(Math.abs(direction[axis]) - 1) <= NOISE);

/** The text of the coordinate at which a leg ends, where names say how long it is. */
const statedBy = ({ panels, strip }: Row, leg: number, axis: 0 | 1 | 2): string | undefined => {
  const [from, to] = [leg, leg + 1].map((i) => {
    const { face, left } = strip.folds[i];
    return coordinateOf(panels[face].corners[left], axis);
  });
  return from && to && (hasName(from) || hasName(to)) ? textOf(to) : undefined;
};

const widthText = ({ panels, strip, corners }: Row, write: Write): string => {
  const { face, left, right } = strip.folds[0];
  const axis = strip.across[0] > 0.5 ? 0 : 1;
  const [from, to] = [left, right].map((corner) => coordinateOf(panels[face].corners[corner], axis));
  const texts = [from, to].map((each) => each && textOf(each));
  if (!from || !to || !texts[0] || !texts[1] || !(hasName(from) || hasName(to))) return write(strip.width);
  if (Math.abs(corners[face][left][axis]) <= NOISE && !hasName(from)) return texts[1];
  return `${texts[1]} - ${standsAlone(from) ? texts[0] : `(${texts[0]})`}`;
};

/** The triple that a corner is stated by. */
export const tripleOf = ({
  point,
  x,
  y,
  z,
}: Pick<Corner, 'point' | 'x' | 'y' | 'z'>): readonly Expression[] | undefined => {
  if (x && y && z) return [x, y, z];
  const value = isPoint(point?.ref) ? point.ref.value : undefined;
  return isTriple(value) ? [value.x, value.y, value.z] : undefined;
};

const coordinateOf = (corner: Corner, axis: 0 | 1 | 2): Expression | undefined => tripleOf(corner)?.[axis];

const hasName = (expression: Expression): boolean => AstUtils.streamAst(expression).some(isNamed);

const standsAlone = (expression: Expression): boolean =>
  isNamed(expression) || isQuantity(expression) || isFraction(expression);

/** Undefined where it holds what has no place in a line, or a place in space that may be gone. */
const textOf = (expression: Expression): string | undefined => {
  const written = expression.$cstNode?.text;
  // The first of three has the bracket that is around them all.
  const text = written && written.split('(').length > written.split(')').length ? written.slice(1).trim() : written;
  return text === undefined || namesPoint(expression) || hasNotes(text) || text.includes('\n') ? undefined : text;
};

export const namesPoint = (expression: Expression): boolean =>
  AstUtils.streamAst(expression).some((each) => isNamed(each) && isPoint(each.ref.ref));

export const hasNotes = (text: string): boolean => text.includes('//') || text.includes('/*');

/** `radius` and `k` of a bend, as they are written. */
const optionsOf = ({ second, $cstNode: whole }: Bend): string => {
  const text = whole && second.$cstNode ? whole.text.slice(second.$cstNode.end - whole.offset).trim() : '';
  return text && `  ${text.replace(/\s+/g, ' ')}`;
};

const wordOf = (direction: Vec3): Heading => {
  const words = Object.keys(headings) as Heading[];
  return words.reduce((best, word) => (dot(headings[word], direction) > dot(headings[best], direction) ? word : best));
};
