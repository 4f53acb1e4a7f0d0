import { AstUtils, UriUtils, type AstNode } from 'langium';
import { isUse, type Let, type Point, type Sheet, type Statement } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';

/**
 * Of statements that hold for the whole tub, those of the nearest file that has any, main file first. Those of other files
 * are set aside, and so is said.
 */
export const ofNearestFile = <T extends Statement>(
  lowering: Lowering,
  nodes: readonly T[],
  word: string,
): readonly T[] => {
  const kept = nodes.filter((node) => node.$container === nodes[0].$container);
  const aside = nodes.filter((node) => node.$container !== nodes[0].$container);
  for (const node of aside) {
    lowering.reports.add(
      'use/set-aside',
      placeOf(lowering, kept[0], node),
      `${titleOf(node, word)} of "${fileOf(node)}" is set aside; the tub is judged by ${titleOf(kept[0], word)} of "${fileOf(kept[0])}"`,
      { related: bothOf(lowering, kept[0], node) },
    );
  }
  return kept;
};

/** The same for a statement that is easily forgotten to be there: one of a used file is said to hold as well. */
export const tellTakenOver = (lowering: Lowering, node: Statement | undefined, word: string): void => {
  if (!node || node.$container === lowering.files[0]) return;
  lowering.reports.add(
    'use/taken-over',
    lowering.idOf(node),
    `\`${word}\` is taken over from "${fileOf(node)}", as this file states none`,
  );
};

/** What says how a file's own tub may be changed says nothing of the tub that uses it. */
export const tellOwnOnly = (lowering: Lowering, node: AstNode, property: string, what: string): void => {
  lowering.reports.add(
    'use/own-only',
    lowering.idOf(node, property),
    `${what} of "${fileOf(node)}" holds only for that file; here its values stay as they are written`,
  );
};

/** Sheets of one name in several files: each file means its own, and others that of the nearest file. */
export const tellHiddenSheets = (lowering: Lowering, sheets: readonly Sheet[]): void => {
  const nearest = new Map<string, Sheet>();
  for (const sheet of sheets) {
    const first = nearest.get(sheet.name);
    if (!first) nearest.set(sheet.name, sheet);
    else if (AstUtils.findRootNode(first) !== AstUtils.findRootNode(sheet))
      lowering.reports.add(
        'use/set-aside',
        placeOf(lowering, first, sheet),
        `Sheet \`${sheet.name}\` of "${fileOf(sheet)}" holds only for what that file states; elsewhere the name means the sheet of "${fileOf(first)}"`,
        { about: [sheet.name], related: bothOf(lowering, first, sheet) },
      );
  }
};

/**
 * Values of one name in several used files, none of which uses the other: nobody states one of them anew on purpose. The
 * same value under one name is one value.
 */
export const tellHiddenValues = (lowering: Lowering, values: readonly (Let | Point)[]): void => {
  const nearest = new Map<string, Let | Point>();
  for (const value of values) {
    const first = nearest.get(value.name);
    if (!first) nearest.set(value.name, value);
    else if (isStatedApart(lowering, first, value))
      lowering.reports.add(
        'use/set-aside',
        lowering.idOf(first),
        `\`${value.name}\` of "${fileOf(value)}" holds only for what that file states; elsewhere the name means the one of "${fileOf(first)}"`,
        { about: [value.name], related: bothOf(lowering, first, value) },
      );
  }
};

const isStatedApart = (lowering: Lowering, first: Let | Point, second: Let | Point): boolean =>
  first.$container !== second.$container &&
  first.$container !== lowering.files[0] &&
  first.value?.$cstNode?.text !== second.value?.$cstNode?.text &&
  !uses(lowering, first, second);

/** Does the file of the one use that of the other, directly or through others? */
const uses = (lowering: Lowering, from: AstNode, to: AstNode): boolean => {
  const goal = AstUtils.getDocument(to).uri.toString();
  const open = [AstUtils.getDocument(from).uri.toString()];
  const seen = new Set(open);
  for (let uri = open.pop(); uri !== undefined; uri = open.pop()) {
    if (uri === goal) return true;
    const file = lowering.documents.find((document) => document.uri.toString() === uri);
    for (const { path } of file?.parseResult.value.statements.filter(isUse) ?? []) {
      const used = UriUtils.resolvePath(UriUtils.dirname(file!.uri), path ?? '').toString();
      if (!seen.has(used)) open.push(used);
      seen.add(used);
    }
  }
  return false;
};

/** Where the builder looks: in the main file if one of the two stands there. */
const placeOf = (lowering: Lowering, kept: Statement, aside: Statement): number =>
  lowering.idOf(kept.$container === lowering.files[0] ? kept : aside);

const bothOf = (lowering: Lowering, kept: Statement, aside: Statement): { at: number; message: string }[] => [
  { at: lowering.idOf(kept), message: 'This one holds' },
  { at: lowering.idOf(aside), message: 'This one is set aside' },
];

const titleOf = (node: Statement, word: string): string =>
  'name' in node && node.name ? `${word} \`${String(node.name)}\`` : `\`${word}\``;

const fileOf = (node: AstNode): string => UriUtils.basename(AstUtils.getDocument(node).uri);
