/** Pins written into a text for pieces as they lie on its nest, and taken out of it. */
import type { Range, TextEdit } from 'vscode-languageserver-types';
import { extentOfContour, mapContour } from '../../analysis/geometry/contour.js';
import { placePoint, type Nest, type NestSheet, type Placement } from '../../analysis/nest/nest.js';
import type { Pin } from '../../analysis/model/tub.js';
import type { Evaluation } from '../analyse.js';
import { isUnits } from '../generated/ast.js';

/** `names`: the pieces that are meant. Clips are none: they have no name of their own in the text. */
export const pinEdits = (evaluation: Evaluation, nest: Nest, names: ReadonlySet<string>): readonly TextEdit[] => {
  const { document, tub } = evaluation;
  const unit = unitOf(evaluation);
  const fresh: string[] = [];
  const edits: TextEdit[] = [];
  for (const sheet of nest.sheets) {
    for (const placement of sheet.placed) {
      if (placement.flat.part === undefined || !names.has(placement.flat.name)) continue;
      const newText = pinText(placement, sheet, unit);
      const known = pinOfPiece(tub.pins, placement);
      const range = known && rangeOf(evaluation, known);
      if (range) edits.push({ range, newText });
      else if (!known) fresh.push(newText);
    }
  }
  if (fresh.length === 0) return edits;
  const text = document.textDocument.getText();
  const end = document.textDocument.positionAt(text.length);
  const before = text === '' || text.endsWith('\n') ? '' : '\n';
  return [...edits, { range: { start: end, end }, newText: `${before}${fresh.join('\n')}\n` }];
};

/** Takes the pins of these pieces out of the text, with their lines. */
export const unpinEdits = (evaluation: Evaluation, nest: Nest, names: ReadonlySet<string>): readonly TextEdit[] =>
  nest.sheets
    .flatMap(({ placed }) => placed)
    .flatMap((placement) => {
      const known = names.has(placement.flat.name) ? pinOfPiece(evaluation.tub.pins, placement) : undefined;
      const range = known && rangeOf(evaluation, known);
      if (!range) return [];
      const { start, end } = range;
      const next = { line: end.line + 1, character: 0 };
      const rest = evaluation.document.textDocument.getText({ start: end, end: next });
      return [{ range: start.character === 0 && rest.trim() === '' ? { start, end: next } : range, newText: '' }];
    });

/** Of the whole statement; undefined where it stands in another file. */
const rangeOf = ({ document, sources }: Evaluation, { at }: Pin): Range | undefined => {
  const place = sources.place(at);
  return place?.document === document ? place.node?.$cstNode?.range : undefined;
};

const pinOfPiece = (pins: readonly Pin[] | undefined, { flat }: Placement): Pin | undefined =>
  pins?.find(({ panel }) => flat.panels.some(({ face }) => face === panel));

/** Lengths need no unit where the text is in mm. */
const unitOf = ({ document }: Evaluation): string =>
  document.parseResult.value.statements.find(isUnits)?.unit === 'mm' ? '' : ' mm';

const pinText = (placement: Placement, { size, number }: NestSheet, unit: string): string => {
  const { flat, turn } = placement;
  const { min } = extentOfContour(mapContour(flat.outline, (point) => placePoint(placement, point)));
  const told = (value: number, digits: number): string => String(Number(value.toFixed(digits)));
  const [width, length] = [...size].sort((a, b) => a - b).map((side) => `${told(side, 3)}${unit}`);
  const [x, y] = min.map((at) => `${told(at, 2)}${unit}`);
  return `pin ${flat.name} on ${width} by ${length} sheet ${number} at (${x}, ${y}) turned ${told((turn * 180) / Math.PI, 5)} deg`;
};
